import { session } from '../../session/session.ts';
import type { QueuedFile } from '../../store/queued.ts';

/** Bytes that the service takes of one document. */
const most = 25 * 1024 * 1024;

/** A file as a document that waits to be sent, or why it is none. */
export type Paper =
  { readonly kind: 'paper'; readonly file: QueuedFile } | { readonly kind: 'tooLarge' | 'empty' | 'otherKind' };

const endings: Readonly<Record<string, string>> = {
  'application/pdf': '.pdf',
  'image/jpeg': '.jpg',
  'image/png': '.png',
  'image/webp': '.webp',
  'text/plain': '.txt',
  'text/csv': '.csv',
};

/** `.pdf`; empty where the name has it already. */
export function endingOf(mediaType: string, name: string): string {
  const ending = endings[mediaType.split(';')[0]?.trim() ?? ''] ?? '';
  return name.toLowerCase().endsWith(ending) ? '' : ending;
}

export async function paperOf(file: File): Promise<Paper> {
  if (file.size === 0) return { kind: 'empty' };
  if (file.size > most) return { kind: 'tooLarge' };
  const mediaType = file.type.split(';')[0] ?? '';
  if (!Object.hasOwn(endings, mediaType) && !mediaType.startsWith('image/')) return { kind: 'otherKind' };
  const digest = await crypto.subtle.digest('SHA-256', await file.arrayBuffer());
  const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const operationId = session.get()?.operationId ?? '';
  return { kind: 'paper', file: { sha256, operationId, blob: file, mediaType, title: file.name } };
}

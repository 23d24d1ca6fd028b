import { v7 } from 'uuid';
import { session } from '../session/session.ts';
import type { Photo } from '../store/queued.ts';

const longest = 1600;

/**
 * Draws the picture anew at a size that shows what matters: that also drops what the camera wrote into it about place
 * and device. null where the browser cannot read it.
 */
export async function photoOf(picture: File): Promise<Photo | null> {
  const operationId = session.get()?.operationId;
  if (operationId === undefined || operationId === null) return null;
  try {
    const bitmap = await createImageBitmap(picture);
    const scale = Math.min(1, longest / Math.max(bitmap.width, bitmap.height));
    const canvas = new OffscreenCanvas(Math.round(bitmap.width * scale), Math.round(bitmap.height * scale));
    canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.82 });
    const digest = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
    const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
    const title = `photo ${new Date().toISOString().slice(0, 16)}`;
    return { documentId: v7(), file: { sha256, operationId, blob, mediaType: 'image/jpeg', title } };
  } catch {
    return null;
  }
}

/** The data of the record that attaches it. */
export const attachment = ({ documentId, file }: Photo, about: readonly string[]) => ({
  ...{ documentId, title: file.title, mediaType: file.mediaType },
  ...{ byteLength: file.blob.size, sha256: file.sha256, about },
});

import { open, readFile } from 'node:fs/promises';
import { fileTypeFromFile } from 'file-type';

/** What papers and photos come as, and the ending of their file's name. Nothing that a browser would run. */
export const mediaTypes = {
  'application/pdf': 'pdf',
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/heic': 'heic',
  'image/heif': 'heif',
  'image/tiff': 'tiff',
  'text/plain': 'txt',
  'text/csv': 'csv',
} as const;
export type MediaType = keyof typeof mediaTypes;

export const isMediaType = (text: string): text is MediaType => Object.hasOwn(mediaTypes, text);

/**
 * The media type of a file, by its content; null where it is none of those taken, or not what it is said to be. What is
 * said matters only for text, which has no mark of its own.
 */
export async function mediaTypeOf(path: string, said: string): Promise<MediaType | null> {
  const found = (await fileTypeFromFile(path))?.mime;
  if (found !== undefined) {
    if (!isMediaType(found)) return null;
    return said === found || said === 'application/octet-stream' ? found : null;
  }
  return (said === 'text/plain' || said === 'text/csv') && (await isText(path)) ? said : null;
}

/** Whether a file is UTF-8 text without control characters but for tabs and line ends. */
async function isText(path: string): Promise<boolean> {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path));

    return !/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.test(text);
  } catch {
    return false;
  }
}

/** Makes what was written to a file or folder last through a power cut. */
export async function settled(path: string): Promise<void> {
  const handle = await open(path, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

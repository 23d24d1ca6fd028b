/**
 * A file as text: by its byte order mark, else UTF-8, else as older spreadsheets write it (windows-1252). null for a
 * spreadsheet program's own file (a ZIP, or the older compound file), which is no table as text.
 */
export async function fileText(file: Blob): Promise<string | null> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const [a, b] = bytes;
  if ((a === 0x50 && b === 0x4b) || (a === 0xd0 && b === 0xcf)) return null;
  if (a === 0xff && b === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (a === 0xfe && b === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

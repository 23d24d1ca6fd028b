/** A file's bytes as text: by its byte order mark, else UTF-8, else as older spreadsheets write it (windows-1252). */
export function decoded(bytes: Uint8Array): { readonly text: string; readonly encoding: string } {
  const mark =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;
  if (mark !== null) return { text: new TextDecoder(mark).decode(bytes), encoding: mark };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
  } catch {
    return { text: new TextDecoder('windows-1252').decode(bytes), encoding: 'windows-1252' };
  }
}

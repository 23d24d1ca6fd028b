/** A file as text; of a spreadsheet one sheet, with the names of the others. */
export interface ReadFile {
  readonly text: string;
  readonly sheet?: string;
  readonly others?: readonly string[];
}

/**
 * A file as text: by its byte order mark, else UTF-8, else as older spreadsheets write it (windows-1252). A spreadsheet
 * (.xlsx, a ZIP) is read as the sheet of that name, or its first with a table. null where nothing can be read: the older
 * spreadsheet programs' own files, and ZIPs that are none.
 */
export async function fileText(file: Blob, sheet?: string): Promise<ReadFile | null> {
  const buffer = await file.arrayBuffer();
  const bytes = new Uint8Array(buffer);
  const [a, b] = bytes;
  if (a === 0xd0 && b === 0xcf) return null;
  if (a === 0x50 && b === 0x4b) {
    const { spreadsheetText } = await import('@furrowmark/reports/spreadsheet');
    return spreadsheetText(buffer, sheet);
  }
  if (a === 0xff && b === 0xfe) return { text: new TextDecoder('utf-16le').decode(bytes) };
  if (a === 0xfe && b === 0xff) return { text: new TextDecoder('utf-16be').decode(bytes) };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { text: new TextDecoder('windows-1252').decode(bytes) };
  }
}

/** Largest report that is looked through, bytes. */
const most = 200_000_000;

/**
 * The log's checkpoint out of a report's PDF: its data is attached to it as JSON (ISO 19005-3, an embedded file), and
 * `log.checkpoint` in there is what the code on the first page says. null: no such file.
 */
export async function checkpointOfReport(file: Blob): Promise<string | null> {
  if (file.size > most) return null;
  const bytes = new Uint8Array(await file.arrayBuffer());
  // One character a byte, so that places in the text are places in the file.
  const text = new TextDecoder('latin1').decode(bytes);
  if (!text.startsWith('%PDF-')) return null;
  for (let at = text.indexOf('/Type /EmbeddedFile'); at >= 0; at = text.indexOf('/Type /EmbeddedFile', at + 1)) {
    const opens = text.indexOf('stream', at);
    const head = text.slice(at, opens);
    const length = Number(/\/Length (\d+)/.exec(head)?.[1] ?? NaN);
    if (opens < 0 || !head.includes('/Subtype /application#2Fjson') || !Number.isSafeInteger(length)) continue;
    const from = opens + 'stream'.length + (text[opens + 'stream'.length] === '\r' ? 2 : 1);
    const found = await checkpointInJson(bytes.subarray(from, from + length));
    if (found !== null) return found;
  }
  return null;
}

async function checkpointInJson(packed: Uint8Array<ArrayBuffer>): Promise<string | null> {
  try {
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate'));
    const content: unknown = JSON.parse(await new Response(stream).text());
    const log: unknown = typeof content === 'object' && content !== null ? Reflect.get(content, 'log') : null;
    const checkpoint: unknown = typeof log === 'object' && log !== null ? Reflect.get(log, 'checkpoint') : null;
    return typeof checkpoint === 'string' ? checkpoint : null;
  } catch {
    return null;
  }
}

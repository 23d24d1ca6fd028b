import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { IncomingMessage } from 'node:http';
import { ProblemAnswer } from './problem.ts';

const megabyte = 1024 * 1024;
const deepest = 20;

/**
 * The JSON body of a request, unchecked but for its form: media type, size, UTF-8, JSON, depth. Read only once the guards
 * have let the request through, so nobody's body is looked at before it is known who sends it.
 */
export const JsonBody = createParamDecorator((_: unknown, context: ExecutionContext): Promise<unknown> =>
  readJson(context.switchToHttp().getRequest<IncomingMessage>()),
);

export async function readJson(request: IncomingMessage, most = megabyte): Promise<unknown> {
  const mediaType = (request.headers['content-type'] ?? '').split(';')[0]?.trim().toLowerCase() ?? '';
  const encoding = (request.headers['content-encoding'] ?? 'identity').trim().toLowerCase();
  if (!/^application\/(json|[\w.-]+\+json)$/.test(mediaType) || encoding !== 'identity') {
    throw new ProblemAnswer('unsupported-media-type', 'Send the body as application/json, not compressed.');
  }
  return parseJson(await readBytes(request, most));
}

/** The whole body; refused as soon as it is known to be larger than `most` bytes. */
export async function readBytes(request: IncomingMessage, most: number): Promise<Buffer> {
  const tooLarge = () =>
    new ProblemAnswer('too-large', `The request is larger than ${Math.round(most / megabyte)} MiB.`);
  if (Number(request.headers['content-length'] ?? 0) > most) {
    drain(request);
    throw tooLarge();
  }
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of request.iterator({ destroyOnReturn: false })) {
      length += chunk.length;
      if (length > most) break;
      chunks.push(chunk);
    }
  } catch {
    throw new ProblemAnswer('bad-request', 'The request ended before its body was complete.');
  }
  if (length > most) {
    drain(request);
    throw tooLarge();
  }
  return Buffer.concat(chunks, length);
}

/**
 * Lets the rest of a refused body run out, so that the sender, who may still be writing, gets to read why it was
 * refused and can use the connection again. A sender that does not stop is cut off.
 */
export function drain(request: IncomingMessage): void {
  let length = 0;
  request.on('data', (chunk: Buffer) => {
    length += chunk.length;
    if (length > 32 * megabyte) request.destroy();
  });
  request.on('error', () => undefined);
}

function parseJson(bytes: Buffer): unknown {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new ProblemAnswer('not-json', 'The body is not valid UTF-8.');
  }
  if (depthOf(text) > deepest)
    throw new ProblemAnswer('too-deep', `Arrays and objects are nested more than ${deepest} deep.`);
  try {
    return JSON.parse(text);
  } catch (error) {
    const where =
      error instanceof SyntaxError ? (/position \d+( \(line \d+ column \d+\))?/.exec(error.message)?.[0] ?? '') : '';
    throw new ProblemAnswer('not-json', where ? `The body is not JSON: see ${where}.` : 'The body is not JSON.');
  }
}

/** How deep arrays and objects are nested in a JSON text; strings are skipped. */
export function depthOf(text: string): number {
  let depth = 0;
  let greatest = 0;
  for (let i = 0; i < text.length; i += 1) {
    const code = text.charCodeAt(i);
    if (code === 0x22) {
      for (i += 1; i < text.length && text.charCodeAt(i) !== 0x22; i += 1) if (text.charCodeAt(i) === 0x5c) i += 1;
    } else if (code === 0x5b || code === 0x7b) {
      depth += 1;
      if (depth > greatest) greatest = depth;
    } else if (code === 0x5d || code === 0x7d) depth -= 1;
  }
  return greatest;
}

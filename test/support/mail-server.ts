import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

/** A letter as a mailbox shows it. */
export interface ReceivedLetter {
  /** By name in lower case, decoded (RFC 2047). */
  readonly headers: ReadonlyMap<string, string>;
  /** To whom the server was told to bring it. */
  readonly to: readonly string[];
  readonly text: string;
}

/** A real mail server that keeps what it is sent, or refuses to take it. */
export interface MailServer {
  readonly url: string;
  letters: ReceivedLetter[];
  /** What it answers instead of taking a letter. */
  refusing: string | null;
  close(): Promise<void>;
}

export async function mailServer(): Promise<MailServer> {
  const post = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    onData: (stream, session, done) => {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', () => {
        if (kept.refusing !== null) return done(new Error(kept.refusing));
        const to = session.envelope.rcptTo.map(({ address }) => address);
        kept.letters.push(read(Buffer.concat(chunks).toString('latin1'), to));
        done();
      });
    },
  });
  await new Promise<void>((listening) => post.listen(0, '127.0.0.1', listening));
  const address: AddressInfo | string | null = post.server.address();
  const port = typeof address === 'object' ? address?.port : 0;
  const kept: MailServer = {
    url: `smtp://127.0.0.1:${String(port)}`,
    letters: [],
    refusing: null,
    close: () => new Promise((closed) => post.close(() => closed())),
  };
  return kept;
}

/** Of one part: what this program's alerts are. */
function read(raw: string, to: readonly string[]): ReceivedLetter {
  const end = raw.indexOf('\r\n\r\n');
  const unfolded = raw.slice(0, end).replaceAll(/\r\n[ \t]/g, ' ');
  const headers = new Map(
    unfolded.split('\r\n').map((line) => {
      const colon = line.indexOf(':');
      return [line.slice(0, colon).toLowerCase(), words(line.slice(colon + 1).trim())] as const;
    }),
  );
  const body = raw.slice(end + 4);
  const encoding = headers.get('content-transfer-encoding') ?? '7bit';
  const bytes =
    encoding === 'base64'
      ? Buffer.from(body, 'base64')
      : encoding === 'quoted-printable'
        ? quotedPrintable(body)
        : Buffer.from(body, 'latin1');
  return { headers, to, text: bytes.toString('utf8').replaceAll('\r\n', '\n') };
}

/** RFC 2045, section 6.7. */
const quotedPrintable = (text: string): Buffer =>
  Buffer.from(
    text
      .replaceAll(/=\r\n/g, '')
      .replaceAll(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16))),
    'latin1',
  );

/** Encoded words (RFC 2047); spaces between two of them do not count. */
const words = (text: string): string =>
  text
    .replaceAll(/\?=\s+=\?/g, '?==?')
    .replaceAll(/=\?utf-8\?([QB])\?([^?]*)\?=/gi, (_, how: string, value: string) =>
      how.toUpperCase() === 'B'
        ? Buffer.from(value, 'base64').toString('utf8')
        : quotedPrintable(value.replaceAll('_', ' ')).toString('utf8'),
    );

import compression from 'compression';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { Request, Response } from 'express';

/** Shorter text is not worth it (octets). */
const threshold = 1_024;

/**
 * Sends text compressed to whoever takes it so: the app over a phone's one bar of reception is a fifth of its size. Not
 * what signs people in: it holds a secret beside what a request can choose, and its length would tell of both (BREACH).
 * And no file that is to be saved: it goes as it is, with the tag and digest of its bytes.
 */
export function compressed(app: NestExpressApplication): void {
  app.use(
    compression({
      threshold,
      filter(request: Request, response: Response) {
        if (request.path.startsWith('/api/v1/session') || response.hasHeader('Content-Disposition')) return false;
        if (!compression.filter(request, response)) return false;
        weaken(request, response);
        return true;
      },
    }),
  );
}

/** The same content in another coding is another representation: its tag compares as weak (RFC 9110, 8.8.3.3). */
function weaken(request: Request, response: Response): void {
  const tag = response.getHeader('ETag');
  const length = response.getHeader('Content-Length');
  const short = length !== undefined && Number(length) < threshold;
  if (short || request.acceptsEncodings('br', 'gzip', 'deflate') === false) return;
  if (typeof tag === 'string' && tag.startsWith('"')) response.setHeader('ETag', `W/${tag}`);
}

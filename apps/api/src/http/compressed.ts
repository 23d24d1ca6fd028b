import compression from 'compression';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { Request, Response } from 'express';

/**
 * Sends text compressed to whoever takes it so: the app over a phone's one bar of reception is a fifth of its size. Not
 * what signs people in: it holds a secret beside what a request can choose, and its length would tell of both (BREACH).
 */
export function compressed(app: NestExpressApplication): void {
  app.use(
    compression({
      filter(request: Request, response: Response) {
        if (request.path.startsWith('/api/v1/session') || !compression.filter(request, response)) return false;
        weaken(request, response);
        return true;
      },
    }),
  );
}

/** The same content in another coding is another representation: its tag compares as weak (RFC 9110, 8.8.3.3). */
function weaken(request: Request, response: Response): void {
  const tag = response.getHeader('ETag');
  if (request.acceptsEncodings('br', 'gzip', 'deflate') === false) return;
  if (typeof tag === 'string' && tag.startsWith('"')) response.setHeader('ETag', `W/${tag}`);
}

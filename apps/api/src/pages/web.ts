import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Request, Response } from 'express';
import packed from 'express-static-gzip';

/** Where the web app is built. Lies beside `src` and `dist`, so that both find it. */
const built = fileURLToPath(new URL('../../../web/dist/', import.meta.url));
const index = join(built, 'index.html');

/** First parts of paths that are the service's own. */
const own = new Set(['api', 'page', 'problems', 'healthz', 'readyz', 'metrics', 'assets']);

/**
 * Serves the web app where it is built: its files, and its first page for every address that a person may open, so that
 * each of its views can be linked. Files that the build compressed go as they lie there. Without it the paths stay what
 * they were.
 */
export function serveWebApp(app: NestExpressApplication): void {
  app.use((request: Request, response: Response, next: NextFunction) => {
    if (!isView(request) || !existsSync(index)) next();
    else response.sendFile(index, { headers: { 'cache-control': 'no-cache' }, etag: true });
  });
  const files = packed(built, {
    ...{ index: false, enableBrotli: true, orderPreference: ['br', 'gzip'] },
    serveStatic: {
      index: false,
      // Named after their content, so kept for good; the rest (the service worker above all) is asked for each time.
      setHeaders: (response, path) => {
        const named = /[/\\]assets[/\\][^/\\]+-[\w-]{8}\.\w+(\.br|\.gz)?$/.test(path);
        response.setHeader('cache-control', named ? 'public, max-age=31536000, immutable' : 'no-cache');
      },
    },
  });
  app.use((request: Request, response: Response, next: NextFunction) => {
    // What is no path is answered as everywhere else.
    if (isPath(request.path)) files(request, response, next);
    else next();
  });
}

function isPath(text: string): boolean {
  try {
    return decodeURIComponent(text) !== '';
  } catch {
    return false;
  }
}

/** Whether a browser asks for a page of the app, not for a file or for the service. */
function isView(request: Request): boolean {
  if (request.method !== 'GET' && request.method !== 'HEAD') return false;
  const [, first = ''] = request.path.split('/');
  if (own.has(first)) return false;
  return (
    request.path === '/' || (!request.path.includes('.') && /text\/html|\*\/\*/.test(request.headers.accept ?? ''))
  );
}

import { readFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Controller, Get, Param, Res } from '@nestjs/common';
import type { Response } from 'express';
import { notFound } from '../http/index.ts';

/** Lies beside `src` and `dist`, so that both find it. */
const folder = new URL('../../page/', import.meta.url);
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
};
/** What is served: named here, so that no path that a request makes up reaches the disk. */
const files: ReadonlySet<string> = new Set([
  ...['page.css', 'page.js', 'element.js', 'words.js', 'session.js'],
  ...['entry.js', 'list.js', 'batch.js', 'ribbon.js', 'verdicts.js', 'timeline.js', 'reports.js'],
]);

/** A page to look at batches with: it only reads, and only what the reader's token opens. */
@Controller()
export class PagesController {
  /** At `/` too, where the web app has not been built. */
  @Get(['', 'page'])
  page(@Res() response: Response): Promise<void> {
    return serve(response, 'index.html');
  }

  @Get('page/:file')
  async file(@Param('file') file: string, @Res() response: Response): Promise<void> {
    if (!files.has(file)) throw notFound();
    await serve(response, file);
  }
}

async function serve(response: Response, file: string): Promise<void> {
  const content = await readFile(fileURLToPath(new URL(file, folder)));
  response.setHeader('content-type', types[extname(file)] ?? 'application/octet-stream');
  // A new release shows at once; the files are small.
  response.setHeader('cache-control', 'no-cache');
  response.send(content);
}

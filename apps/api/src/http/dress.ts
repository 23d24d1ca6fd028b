import { createHash } from 'node:crypto';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Request, Response } from 'express';
import cookieParser from 'cookie-parser';
import helmet from 'helmet';
import { pino } from 'pino';
import { pinoHttp } from 'pino-http';
import { v7 as uuidv7 } from 'uuid';
import { Metrics } from '../metrics.ts';
import { compressed } from './compressed.ts';
import { answerProblem, ProblemFilter } from './problem-filter.ts';

/** How much the service says about itself. */
export type LogChoice = 'silent' | 'error' | 'warn' | 'info' | 'debug';

/** What every answer has: security headers, a request id, a log line without tokens or personal values, problems. */
export function dressed(app: NestExpressApplication, level: LogChoice): void {
  app.disable('x-powered-by');
  app.set('etag', (body: Buffer | string) => `"${createHash('sha256').update(body).digest('base64url')}"`);
  app.set('trust proxy', ['loopback', 'linklocal', 'uniquelocal']);
  app.set('query parser', 'simple');
  app.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          defaultSrc: ["'self'"],
          objectSrc: ["'none'"],
          baseUri: ["'none'"],
          frameAncestors: ["'none'"],
          formAction: ["'self'"],
          imgSrc: ["'self'", 'data:'],
        },
      },
      referrerPolicy: { policy: 'no-referrer' },
    }),
  );
  compressed(app);
  app.use(cookieParser());
  app.use(requestLog(level));
  app.use('/api', (request: Request, response: Response, next: NextFunction) => {
    // A client's `fetch` adds no-cache of its own when it asks "has this changed?"; the tag answers that.
    if (request.headers['if-none-match'] !== undefined) delete request.headers['cache-control'];
    response.setHeader('Cache-Control', 'private, no-cache');
    response.setHeader('Vary', 'Authorization, Cookie');
    next();
  });
  const metrics = app.get(Metrics);
  app.use((request: Request, response: Response, next: NextFunction) => {
    const end = metrics.requests.startTimer({ method: request.method });
    response.once('finish', () => end({ status: response.statusCode }));
    next();
  });
  app.useGlobalFilters(new ProblemFilter());
  // What Express itself refuses (a path that is not valid percent-encoding) never reaches the filter.
  app.use((error: unknown, request: Request, response: Response, _next: NextFunction) =>
    answerProblem(error, request, response),
  );
}

function requestLog(level: LogChoice) {
  return pinoHttp({
    logger: pino({ level, base: null, timestamp: pino.stdTimeFunctions.isoTime }),
    genReqId: (_request, response) => {
      const id = uuidv7();
      response.setHeader('X-Request-Id', id);
      return id;
    },
    // No header, body or query: they may hold tokens and names.
    serializers: {
      req: (request: { id: unknown; method: string; url: string }) => ({
        id: request.id,
        method: request.method,
        path: request.url.split('?', 1)[0],
      }),
      res: (response: { statusCode: number }) => ({ status: response.statusCode }),
      // Not what the error carries: a failed statement carries its parameters, which may be names or hashes of secrets.
      err: (error: { type?: unknown; message?: unknown; stack?: unknown; code?: unknown }) => ({
        type: error.type,
        code: error.code,
        message: error.message,
        stack: error.stack,
      }),
    },
    customLogLevel: (_request, response) => (response.statusCode >= 500 ? 'error' : 'info'),
  });
}

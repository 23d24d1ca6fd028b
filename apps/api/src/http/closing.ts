import type { Server } from 'node:http';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Request, Response } from 'express';

/** How long a request that was accepted may take once the service is to stop (milliseconds). */
const patience = 15_000;

/**
 * Lets the service stop while clients hold their connections open: from then on every answer is the last on its
 * connection. Gives what stops it: requests already accepted are answered, then nothing listens any more.
 */
export function closable(app: NestExpressApplication): () => Promise<void> {
  const underWay = new Set<Response>();
  let closing = false;
  app.use((_request: Request, response: Response, next: NextFunction) => {
    if (closing) response.shouldKeepAlive = false;
    underWay.add(response);
    response.once('close', () => underWay.delete(response));
    next();
  });
  return async () => {
    closing = true;
    for (const response of underWay) if (!response.headersSent) response.shouldKeepAlive = false;
    const server: Server = app.getHttpServer();
    const cutOff = setTimeout(() => server.closeAllConnections(), patience);
    await app.close();
    clearTimeout(cutOff);
  };
}

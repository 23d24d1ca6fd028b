import type { INestApplication } from '@nestjs/common';

/**
 * Lets pages of other sites ask with a token, where whoever runs the service names them. Cookies are never taken from
 * there: no `Access-Control-Allow-Credentials`.
 */
export function allowOrigins(app: INestApplication, origins: readonly string[]): void {
  if (origins.length === 0) return;
  app.enableCors({
    origin: [...origins],
    credentials: false,
    allowedHeaders: ['Authorization', 'Content-Type', 'Accept', 'If-None-Match'],
    exposedHeaders: ['ETag', 'Link', 'Retry-After', 'X-Request-Id', 'Furrowmark-Next', 'Furrowmark-Tables'],
    maxAge: 600,
  });
}

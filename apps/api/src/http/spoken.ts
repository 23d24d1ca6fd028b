import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Language } from '@furrowmark/rules';
import type { Request, Response } from 'express';

/** The language of sentences in the answer, by the request's `Accept-Language`; English unless Spanish is wanted more. */
export const Spoken = createParamDecorator((_: unknown, context: ExecutionContext): Language => {
  const http = context.switchToHttp();
  const language = http.getRequest<Request>().acceptsLanguages('en', 'es') === 'es' ? 'es' : 'en';
  http.getResponse<Response>().setHeader('Content-Language', language).vary('Accept-Language');
  return language;
});

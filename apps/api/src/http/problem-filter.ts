import { Catch, HttpException, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { Request, Response } from 'express';
import { isConnectionLost, outOfRoom, tookTooLong } from '../database/index.ts';
import { endAfter } from './heard-out.ts';
import { busy, notFound, ProblemAnswer } from './problem.ts';

/** Answers every error as a problem. What nobody expected is logged with its request's id and answered without detail. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(thrown: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<Request>();
    const response = host.switchToHttp().getResponse<Response>();
    answerProblem(thrown, request, response);
  }
}

export function answerProblem(thrown: unknown, request: Request, response: Response): void {
  const problem = problemOf(thrown);
  if (problem.body.status >= 500) request.log?.error({ err: thrown }, problem.body.title);
  if (response.headersSent) {
    response.destroy();
    return;
  }
  for (const name of ['ETag', 'Content-Disposition', 'Content-Length']) response.removeHeader(name);
  if (problem.body.status === 401) response.setHeader('WWW-Authenticate', 'Bearer realm="furrowmark"');
  if (problem.retryAfter !== undefined) response.setHeader('Retry-After', String(problem.retryAfter));
  response.setHeader('Cache-Control', 'no-store');
  const text = JSON.stringify(problem.body);
  response.status(problem.body.status).type('application/problem+json');
  response.setHeader('Content-Length', Buffer.byteLength(text));
  if (arrived(request)) response.end(text);
  else endAfter(request, response, text);
}

const arrived = (request: Request): boolean =>
  request.complete ||
  (request.headers['transfer-encoding'] === undefined && !Number(request.headers['content-length']));

function problemOf(thrown: unknown): ProblemAnswer {
  if (thrown instanceof ProblemAnswer) return thrown;
  if (isConnectionLost(thrown)) return busy('The database does not answer just now. Send the same again.');
  if (outOfRoom(thrown))
    return busy('There is no room left to write it down just now. Keep it, and send the same again.');
  if (tookTooLong(thrown)) return busy('The database takes too long just now. Send the same again.');
  // Malformed percent-encoding in the path and the like, noticed before any handler.
  const status = thrown instanceof HttpException ? thrown.getStatus() : statusOf(thrown);
  if (status === 404) return notFound();
  if (status === 405) return new ProblemAnswer('method-not-allowed', 'This address does not take that method.');
  if (status === 413) return new ProblemAnswer('too-large', 'The request is larger than 1 MiB.');
  if (status === 429) return new ProblemAnswer('too-many-requests', 'Too many requests. Wait a moment.', [], 60);
  if (status !== undefined && status >= 400 && status < 500) {
    return new ProblemAnswer('bad-request', 'The request cannot be understood.');
  }
  return new ProblemAnswer('internal', 'Something went wrong in the service. It has been noted.');
}

function statusOf(thrown: unknown): number | undefined {
  if (thrown instanceof URIError) return 400;
  const status: unknown =
    typeof thrown === 'object' && thrown !== null && 'status' in thrown ? thrown.status : undefined;
  return typeof status === 'number' ? status : undefined;
}

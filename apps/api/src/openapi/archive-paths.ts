import { archiveTypes, importQuery } from '../controllers/import.controller.ts';
import { keyReplacement, takeOver } from '../controllers/log-key.controller.ts';
import { newWitness } from '../controllers/witnesses.controller.ts';
import type { Route } from './route.ts';
import { instant, listOf, object, schemaOf, text, uuid, whole } from './schemas.ts';

const operation = '/api/v1/operations/{op}';
const cursor = { type: ['string', 'null'] };
const changed = object({ seq: whole, previousKey: cursor, key: text });
const archive = { type: 'string', format: 'binary' };
const imported = object({
  operationId: uuid,
  size: whole,
  root: text,
  readOnly: { const: true },
  key: cursor,
  documents: object({ taken: whole, notTaken: listOf(text) }),
});
const witness = object({
  witnessId: uuid,
  address: text,
  everyDays: whole,
  nextAt: instant,
  sentAt: cursor,
  sentSize: { type: ['integer', 'null'] },
  failure: cursor,
});

/** The log as a file, its key, and who outside is sent its checkpoints. */
export function archiveRoutes(): Record<string, Record<string, Route>> {
  const take: Route = {
    summary: 'Take a whole-operation archive; it is only read here until it is taken over',
    query: importQuery,
    body: archive,
    bodyTypes: archiveTypes,
    answer: imported,
    status: 201,
  };
  return {
    [`${operation}/export`]: {
      get: { summary: 'The whole log as an archive', answer: archive, mediaType: 'application/x-tar' },
    },
    '/api/v1/operations/import': { post: take },
    [`${operation}/import`]: { post: take },
    [`${operation}/take-over`]: {
      post: { summary: 'Carry an imported log on here, under a new key', body: schemaOf(takeOver), answer: changed },
    },
    [`${operation}/log/key`]: {
      get: { summary: 'The verifier key', answer: text, mediaType: 'text/plain' },
      post: { summary: 'Replace the signing key', body: schemaOf(keyReplacement), answer: changed },
    },
    [`${operation}/log/witnesses`]: {
      get: {
        summary: 'Who outside is sent checkpoints',
        answer: object({ witnesses: listOf(witness), mail: { type: 'boolean' } }),
      },
      post: {
        summary: 'Send somebody outside a checkpoint every so often',
        body: schemaOf(newWitness),
        answer: witness,
        status: 201,
      },
    },
    [`${operation}/log/witnesses/{witnessId}`]: {
      delete: { summary: 'Send no more', answer: null, status: 204 },
    },
    [`${operation}/records/{recordId}/proof`]: {
      get: {
        summary: 'A record with what proves its place in the log, a C2SP proof file',
        answer: text,
        mediaType: 'text/plain',
      },
    },
  };
}

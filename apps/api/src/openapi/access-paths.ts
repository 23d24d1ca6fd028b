import { role } from '../access/index.ts';
import { alertChoice, told } from '../alerts/index.ts';
import { newLink, newPhone } from '../controllers/access-links.controller.ts';
import { deviceBody, machineBody, passwordBody } from '../controllers/account.controller.ts';
import { acceptBody } from '../controllers/invitations.controller.ts';
import { newMember, pinOfMember, reasonQuery, roleBody } from '../controllers/members.controller.ts';
import { newReview } from '../controllers/reviews.controller.ts';
import { pinBody, signInBody } from '../controllers/session.controller.ts';
import { mediaTypes } from '../documents/index.ts';
import type { Route } from './route.ts';
import { instant, listOf, object, schemaOf, sha256, text, uuid, whole } from './schemas.ts';

const operation = '/api/v1/operations/{op}';
const orNull = (schema: object) => ({ oneOf: [{ type: 'null' }, schema] });
const person = object({ accountId: uuid, name: text });
const token = object({ tokenId: uuid, token: text, expiresAt: orNull(instant) });
const roles = schemaOf(role);
const kind = { enum: ['person', 'device', 'machine', 'phone', 'link', 'session', 'pin'] };
const date = { type: 'string', format: 'date' };
const signed = object({ size: whole, root: text });
const session = object({ person, kind, expiresAt: instant, csrfToken: text });
const quiet = object({ from: text, until: text });
const alerts = object({
  choice: orNull(
    object({
      ...{ address: text, tells: listOf(schemaOf(told)), quiet: orNull(quiet), language: { enum: ['en', 'es'] } },
      ...{ since: instant, failure: orNull(text) },
    }),
  ),
  mail: { type: 'boolean' },
});
const stored = object({ sha256, byteLength: whole, mediaType: text, url: text });

/** Signing in, who may do what, signatures, documents: every address, its methods, what it takes and gives. */
export function accessRoutes(): Record<string, Record<string, Route>> {
  return {
    '/api/v1/session': {
      post: {
        summary: 'Sign in with name and password; the session is in an HttpOnly cookie',
        body: schemaOf(signInBody),
        answer: session,
        status: 201,
        open: true,
      },
      get: {
        summary: 'Who is signed in, and how; of a reading link, the days that it reaches',
        answer: object({
          person,
          kind,
          'reads?': object({ from: orNull(date), until: orNull(date) }),
          expiresAt: orNull(instant),
          operations: listOf(object({ operationId: uuid, name: text, timeZone: text, role: roles })),
          'csrfToken?': text,
        }),
      },
      delete: { summary: 'Sign out', answer: null, status: 204 },
    },
    '/api/v1/session/people': {
      get: { summary: 'Who may sign in with a PIN on this shared phone', answer: object({ people: listOf(person) }) },
    },
    '/api/v1/session/pin': {
      post: {
        summary: 'On a shared phone: a person’s session by their PIN',
        body: schemaOf(pinBody),
        answer: object({ person, token: text, expiresAt: orNull(instant) }),
        status: 201,
      },
    },
    '/api/v1/account/password': {
      put: {
        summary: 'Set or change the password; every other session ends',
        body: schemaOf(passwordBody),
        answer: null,
        status: 204,
      },
    },
    '/api/v1/account/devices': {
      post: {
        summary: 'A token for one of the person’s phones: ninety days, renewed with every use',
        body: schemaOf(deviceBody),
        answer: token,
        status: 201,
      },
    },
    '/api/v1/account/tokens': {
      get: {
        summary: 'What the person is signed in with',
        answer: object({
          tokens: listOf(
            object({
              ...{ tokenId: uuid, kind, label: text, operationId: orNull(uuid), roleAtMost: orNull(roles) },
              ...{ createdAt: instant, expiresAt: orNull(instant), lastUsedAt: orNull(instant) },
            }),
          ),
          current: uuid,
        }),
      },
      post: {
        summary: 'A token for a program: one operation, at most one role, a last day',
        body: schemaOf(machineBody),
        answer: token,
        status: 201,
      },
    },
    '/api/v1/account/tokens/{tokenId}': { delete: { summary: 'Withdraw a token', answer: null, status: 204 } },
    '/api/v1/invitations/accept': {
      post: {
        summary: 'Accept an invitation, or set a new password with one',
        body: schemaOf(acceptBody),
        answer: object({
          ...{ operationId: orNull(uuid), role: orNull(roles) },
          ...{ 'person?': person, 'kind?': kind, 'expiresAt?': instant, 'csrfToken?': text },
        }),
        status: 201,
        open: true,
      },
    },
    [`${operation}/members`]: {
      get: {
        summary: 'Everybody who is or was a member, with the names to the account ids in records',
        answer: object({
          members: listOf(
            object({
              ...{ accountId: uuid, name: text, role: roles, what: { enum: ['person', 'link', 'phone'] } },
              ...{ since: instant, until: orNull(instant), pin: { type: 'boolean' } },
            }),
          ),
        }),
      },
      post: {
        summary: 'Invite a person, or add one who uses shared phones only',
        body: schemaOf(newMember),
        answer: object({ 'invitation?': text, 'invitationId?': uuid, 'expiresAt?': instant, 'accountId?': uuid }),
        status: 201,
      },
    },
    [`${operation}/members/{accountId}`]: {
      put: { summary: 'Change what a member is', body: schemaOf(roleBody), answer: null, status: 204 },
      delete: { summary: 'End a membership; what was recorded stays', query: reasonQuery, answer: null, status: 204 },
    },
    [`${operation}/members/{accountId}/pin`]: {
      put: { summary: 'Set a PIN for shared phones', body: schemaOf(pinOfMember), answer: null, status: 204 },
      delete: { summary: 'Take a PIN away, with the sessions that began with it', answer: null, status: 204 },
    },
    [`${operation}/alerts`]: {
      get: { summary: 'What the person is told by e-mail of what is due and what broke', answer: alerts },
      put: { summary: 'Be told by e-mail; nobody is who did not ask', body: schemaOf(alertChoice), answer: alerts },
      delete: { summary: 'Be told no more; the address is forgotten', answer: null, status: 204 },
    },
    [`${operation}/invitations`]: {
      get: {
        summary: 'Invitations that are still open',
        answer: object({
          invitations: listOf(object({ invitationId: uuid, name: text, role: roles, expiresAt: instant })),
        }),
      },
    },
    [`${operation}/invitations/{invitationId}`]: {
      delete: { summary: 'Take an invitation back', answer: null, status: 204 },
    },
    [`${operation}/access-links`]: {
      get: {
        summary: 'Reading links for somebody outside',
        answer: object({
          links: listOf(
            object({
              ...{ accessId: uuid, purpose: orNull(text), inspectionId: orNull(uuid), from: orNull(date) },
              ...{ until: orNull(date), createdAt: instant, expiresAt: instant },
              ...{ withdrawnAt: orNull(instant), lastUsedOn: orNull(date) },
            }),
          ),
        }),
      },
      post: {
        summary: 'A link that only reads, for a while and a period: since the last inspection, where not said',
        body: schemaOf(newLink),
        answer: object({
          ...{ accessId: uuid, token: text, url: text, expiresAt: instant },
          ...{ from: orNull(date), until: orNull(date) },
        }),
        status: 201,
      },
    },
    [`${operation}/access-links/{accessId}`]: {
      delete: { summary: 'Withdraw a reading link', query: reasonQuery, answer: null, status: 204 },
    },
    [`${operation}/phones`]: {
      get: {
        summary: 'Phones that several people share',
        answer: object({
          phones: listOf(
            object({
              ...{ tokenId: uuid, accountId: uuid, label: text, createdAt: instant, expiresAt: instant },
              lastUsedAt: orNull(instant),
            }),
          ),
        }),
      },
      post: {
        summary: 'Add a shared phone; its token is shown this once',
        body: schemaOf(newPhone),
        answer: object({ tokenId: uuid, accountId: uuid, token: text, expiresAt: orNull(instant) }),
        status: 201,
      },
    },
    [`${operation}/phones/{tokenId}`]: {
      delete: {
        summary: 'Withdraw a shared phone, and every session on it',
        query: reasonQuery,
        answer: null,
        status: 204,
      },
    },
    [`${operation}/batches/{batchId}/reviews`]: {
      get: {
        summary: 'The signatures on a batch, and whether they cover what is there now',
        answer: object({
          reviews: listOf(
            object({
              ...{ recordId: uuid, seq: whole, occurredAt: instant, recordedAt: instant, recordedBy: uuid },
              ...{ name: orNull(text), meaning: text, statement: text, throughSeq: whole, signed: orNull(signed) },
              ...{ proof: { enum: ['password', 'pin', null] }, laterRecordIds: listOf(uuid) },
              coversCurrentState: { type: 'boolean' },
            }),
          ),
          asOfSeq: { type: 'integer' },
        }),
      },
      post: {
        summary: 'Sign a batch, proving again who you are',
        body: schemaOf(newReview),
        answer: object({
          ...{ recordId: uuid, seq: whole, recordedAt: instant, throughSeq: whole, signed },
          ...{ proof: { enum: ['password', 'pin'] }, log: signed },
        }),
        status: 201,
      },
    },
    [`${operation}/documents`]: {
      post: {
        summary: 'Keep a document (25 MiB at most); 200 where it is kept already',
        body: { type: 'string', format: 'binary' },
        bodyTypes: Object.keys(mediaTypes),
        answer: stored,
        status: 201,
      },
    },
    [`${operation}/documents/{sha256}`]: {
      get: {
        summary: 'A document, to be saved',
        answer: { type: 'string', format: 'binary' },
        mediaType: 'application/octet-stream',
      },
    },
  };
}

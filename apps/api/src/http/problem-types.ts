/** The kinds of problem that the service answers with (RFC 9457): the status, the title, and what to do about it. */
export const problemTypes = {
  unauthenticated: {
    status: 401,
    title: 'Sign in first',
    remedy: 'Send a valid token in the Authorization header: "Bearer" and the token.',
  },
  forbidden: {
    status: 403,
    title: 'Not permitted',
    remedy: 'Ask a manager of the operation for a role that may do this.',
  },
  'not-found': {
    status: 404,
    title: 'Not found',
    remedy: 'Check the address; ask a manager to be added to the operation.',
  },
  'method-not-allowed': { status: 405, title: 'Method not allowed', remedy: 'See /api/openapi.json.' },
  'not-acceptable': {
    status: 406,
    title: 'No such form of this answer',
    remedy: 'Ask for one of the media types named.',
  },
  conflict: { status: 409, title: 'Already there', remedy: 'Nothing was changed.' },
  'not-json': { status: 400, title: 'Not JSON', remedy: 'Send UTF-8 JSON (RFC 8259).' },
  'too-deep': { status: 400, title: 'Nested too deep', remedy: 'Nest arrays and objects at most 20 deep.' },
  'invalid-parameter': { status: 400, title: 'A parameter is not valid', remedy: 'Correct the parameter named.' },
  'bad-request': { status: 400, title: 'Not a valid request', remedy: 'See /api/openapi.json.' },
  'too-large': { status: 413, title: 'Too large', remedy: 'Send fewer records at once; at most 1 MiB.' },
  'unsupported-media-type': {
    status: 415,
    title: 'Not a media type for this address',
    remedy: 'Send Content-Type: application/json, not compressed.',
  },
  'invalid-body': { status: 422, title: 'The content is not valid', remedy: 'Correct the members named.' },
  'too-many-records': { status: 422, title: 'Too many records', remedy: 'Send at most 1,000 records at once.' },
  'impossible-input': { status: 422, title: 'This cannot be calculated', remedy: 'Correct the values named.' },
  'too-many-requests': { status: 429, title: 'Too many requests', remedy: 'Wait as long as Retry-After says.' },
  'document-missing': {
    status: 410,
    title: 'The file is gone',
    remedy: 'Attach the document again from your own copy; its digest is in the log.',
  },
  'document-altered': {
    status: 500,
    title: 'The file was altered',
    remedy: 'Tell who runs the service; restore the file from a backup or attach it again.',
  },
  'log-disagrees': {
    status: 500,
    title: 'The log is not the one that was signed',
    remedy: 'Tell who runs the service. Nothing is signed until it is clear what happened.',
  },
  'read-only': {
    status: 409,
    title: 'The log is only read here',
    remedy: 'It came in as an archive. A manager takes it over first; that is recorded.',
  },
  internal: { status: 500, title: 'A fault in the service', remedy: 'Nothing is lost. Tell who runs the service.' },
  busy: {
    status: 503,
    title: 'Busy',
    remedy: 'Send the same again after the seconds in Retry-After; nothing is recorded twice.',
  },
  malformed: {
    status: 422,
    title: 'The record is not well formed',
    remedy: 'Correct the members named and send it again.',
  },
  impossible: { status: 422, title: 'The record says something impossible', remedy: 'Correct the members named.' },
  'type-unknown': { status: 422, title: 'There is no such record type', remedy: 'See the list of record types.' },
  'version-unknown': {
    status: 422,
    title: 'This version of the record type is not known here',
    remedy: 'Update the app, or the server.',
  },
  'record-too-large': {
    status: 422,
    title: 'The record is too large',
    remedy: 'Shorten it to 60,000 bytes of canonical JSON.',
  },
  'id-reused': {
    status: 409,
    title: 'The id belongs to another record',
    remedy: 'Give the new record an id of its own. To correct a record, send record.amended.',
  },
  'not-permitted': { status: 403, title: 'Not permitted', remedy: 'Ask a reviewer or manager to record it.' },
  'retention-not-over': {
    status: 409,
    title: 'The retention time is not over',
    remedy: 'Erase the person after the date named.',
  },
} as const satisfies Record<string, { status: number; title: string; remedy: string }>;

export type ProblemType = keyof typeof problemTypes;

export function isProblemType(text: string): text is ProblemType {
  return Object.hasOwn(problemTypes, text);
}

import { describe, expect, it } from '@jest/globals';
import { Client } from 'pg';
import { QueryFailedError, QueryRunnerAlreadyReleasedError, QueryRunnerProviderAlreadyReleasedError } from 'typeorm';
import { isConnectionLost, outOfRoom, tookTooLong } from './connection-lost.ts';

describe('the database went away, rather than refused', () => {
  it('where a transaction’s connection was given up between two statements', async () => {
    expect(isConnectionLost(new QueryRunnerAlreadyReleasedError())).toBe(true);
    expect(isConnectionLost(new QueryRunnerProviderAlreadyReleasedError())).toBe(true);
    const ended = new Client({ host: '127.0.0.1', port: 1 });
    await ended.end();
    const refusal = await ended.query('SELECT 1').catch((error: unknown) => error);
    expect(isConnectionLost(refusal)).toBe(true);
  });

  // PostgreSQL's error codes, appendix A of its manual: class 57 is operator intervention, 23505 a unique violation.
  it.each([
    ['shutting down', '57P01', true],
    ['a process crashed', '57P02', true],
    ['starting up', '57P03', true],
    ['a transaction idle too long, ended with its session', '25P03', true],
    ['a transaction running too long, ended with its session', '25P04', true],
    ['a server that only reads', '25006', true],
    ['a host that is down', 'EHOSTDOWN', true],
    ['a network that is down', 'ENETDOWN', true],
    ['a network that is out of reach', 'ENETUNREACH', true],
    ['a line that the system gave up', 'ECONNABORTED', true],
    ['a name server that does not answer', 'EAI_AGAIN', true],
    ['a statement outside a transaction that needs one', '25P01', false],
    ['a statement took too long', '57014', false],
    ['a value that is there already', '23505', false],
  ])('%s (%s): %s', (_name, code, lost) => {
    const refusal = Object.assign(new Error('refused'), { code });
    expect(isConnectionLost(new QueryFailedError('SELECT 1', [], refusal))).toBe(lost);
  });

  it('no room on the disk, nor for a connection, is said apart too', () => {
    for (const code of ['53100', '53300', 'ENOSPC', 'EMFILE', 'ENFILE']) {
      expect(outOfRoom(Object.assign(new Error('no room'), { code }))).toBe(true);
    }
    expect(outOfRoom(Object.assign(new Error('refused'), { code: '23505' }))).toBe(false);
  });

  it('a statement that took too long, or stood in another’s way, is said apart from the rest', () => {
    for (const code of ['57014', '55P03', '40001', '40P01'])
      expect(tookTooLong(Object.assign(new Error('canceling statement'), { code }))).toBe(true);
    expect(tookTooLong(Object.assign(new Error('refused'), { code: '23505' }))).toBe(false);
  });
});

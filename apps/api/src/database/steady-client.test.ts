import { describe, expect, it } from '@jest/globals';
import { Client } from 'pg';
import { SteadyClient } from './steady-client.ts';

describe('a connection that dies when nobody has a statement under way', () => {
  const lastWord = new Error('terminating connection due to unexpected postmaster exit');

  it('ends the process where it is the driver’s own', () => {
    expect(() => new Client().emit('error', lastWord)).toThrow();
  });

  it('does not where it is the service’s, however often it says so', () => {
    const client = new SteadyClient();
    expect(client.emit('error', lastWord)).toBe(true);
    expect(client.emit('error', lastWord)).toBe(true);
  });
});

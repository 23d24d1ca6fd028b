import { Client, type ClientConfig } from 'pg';

/**
 * A connection that may die at any moment without taking the process with it. A dying connection can say so twice (the
 * server's last word, then the end of the line), and between the first word, upon which it is given up, and the second
 * nobody else listens. Whoever has a statement under way is told through that statement.
 */
export class SteadyClient extends Client {
  constructor(config?: string | ClientConfig) {
    super(config);
    this.on('error', () => undefined);
  }
}

import { Refusal } from './command.ts';

/** The port that PORT names: 0 any free one; 3000 unless said. */
export function port(): number {
  const text = process.env['PORT'];
  if (text === undefined || text === '') return 3_000;
  const value = Number(text);
  if (!/^\d{1,5}$/.test(text) || value > 65_535)
    throw new Refusal(`PORT is "${text}"; it must be a number from 0 to 65535.`);
  return value;
}

/** When it happened: now (the moment of recording), a while ago, or a time given; and how sure that is. */
export interface When {
  readonly kind: 'now' | 'ago' | 'at';
  /** With `ago`: minutes; with `at`: the instant. */
  readonly value: number;
  readonly plusMinus: number;
  readonly origin: 'observed' | 'fromMemory' | 'fromPaper';
}

export const whenNow: When = { kind: 'now', value: 0, plusMinus: 0, origin: 'observed' };

/** The instant meant, should it be recorded at `now`. */
export const instantOfWhen = ({ kind, value }: When, now: number): number =>
  kind === 'at' ? value : kind === 'ago' ? now - value * 60_000 : now;

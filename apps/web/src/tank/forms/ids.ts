/** The records that are written at a tank. The id is part of the address. */
export const formIds = [
  'fill',
  'airOn',
  'airOff',
  'chlorine',
  'neutralizer',
  'ingredient',
  'oxygen',
  'look',
  'draw',
  'apply',
  'lost',
  'dump',
  'close',
  'note',
] as const;

export type FormId = (typeof formIds)[number];

export const isFormId = (text: string): text is FormId => formIds.some((id) => id === text);

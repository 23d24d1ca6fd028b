import { bookMessages } from './book.ts';
import { brewMessages } from './brew.ts';
import { certifierMessages } from './certifier.ts';
import { compostMessages } from './compost.ts';
import { dueMessages } from './due.ts';
import { groundMessages } from './ground.ts';
import { inputsMessages } from './inputs.ts';
import { oxygenMessages } from './oxygen.ts';
import { recordsMessages } from './records.ts';
import { spansMessages } from './spans.ts';
import { tanksMessages } from './tanks.ts';
import { toolsMessages } from './tools.ts';
import { treatmentMessages } from './treatment.ts';
import { useMessages } from './use.ts';
import { waterMessages } from './water.ts';

/** Every sentence that the rules say, by its key, in both languages. */
export const messages = {
  ...waterMessages,
  ...brewMessages,
  ...oxygenMessages,
  ...useMessages,
  ...treatmentMessages,
  ...inputsMessages,
  ...compostMessages,
  ...groundMessages,
  ...certifierMessages,
  ...toolsMessages,
  ...tanksMessages,
  ...recordsMessages,
  ...bookMessages,
  ...dueMessages,
  ...spansMessages,
} as const;

export type MessageKey = keyof typeof messages;

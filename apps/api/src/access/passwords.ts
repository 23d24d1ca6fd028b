import { hash, verify } from '@node-rs/argon2';

/**
 * Argon2id (RFC 9106; the library's own choice, and the table takes no other) with 19 MiB, two passes, one lane: the OWASP Password Storage Cheat Sheet's first choice for
 * servers that answer many (values from memory of that page).
 */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** The same text, however a keyboard composes its letters (NIST SP 800-63B asks for NFKC or NFKD). */
const composed = (secret: string): string => secret.normalize('NFKC');

/** What is kept of a password or PIN, as a PHC string. */
export function hashOf(secret: string): Promise<string> {
  return hash(composed(secret), cost);
}

let nobody: Promise<string> | null = null;

/**
 * Whether the secret is the one of that hash. Without a hash it takes as long and says no, so that the time of an answer
 * does not tell whether there is such an account.
 */
export async function isRight(secret: string, kept: string | null): Promise<boolean> {
  nobody ??= hashOf('nobody has this password');
  return (await verify(kept ?? (await nobody), composed(secret))) && kept !== null;
}

/** Fewest characters of a password. NIST SP 800-63B-4 asks for 15 where a password alone opens the door (from memory). */
export const shortest = 15;
/** Most characters; beyond it nobody types, but a program may try to keep the server busy. */
export const longest = 200;

/** Words for why a password will not do; null where it will. `about` are words that must not carry it: name, login. */
export async function weakness(password: string, about: readonly string[]): Promise<string | null> {
  const length = [...composed(password)].length;
  if (length < shortest) return `must have at least ${shortest} characters: four or five words in a row will do`;
  if (length > longest) return `must have at most ${longest} characters`;
  const { guessesLog10 } = (await estimator()).check(composed(password), [...about]);
  return guessesLog10 < 8 ? 'is easy to guess: choose words that have nothing to do with each other' : null;
}

let loaded: Promise<{ check(password: string, about: string[]): { guessesLog10: number } }> | null = null;

/** Loaded at the first use: its lists of much-used passwords take a moment. */
function estimator() {
  loaded ??= (async () => {
    const [{ ZxcvbnFactory }, { adjacencyGraphs, dictionary }] = await Promise.all([
      import('@zxcvbn-ts/core'),
      import('@zxcvbn-ts/language-common'),
    ]);
    return new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs });
  })();
  return loaded;
}

/** Words for why a PIN will not do; null where it will: four to eight digits, not all alike, not in a row. */
export function pinWeakness(pin: string): string | null {
  if (!/^\d{4,8}$/.test(pin)) return 'must be four to eight digits';
  const digits = [...pin].map(Number);
  const steps = new Set(digits.slice(1).map((digit, i) => digit - (digits[i] ?? 0)));
  const [only] = steps;
  return steps.size === 1 && only !== undefined && Math.abs(only) <= 1
    ? 'must not be one digit repeated or digits in a row'
    : null;
}

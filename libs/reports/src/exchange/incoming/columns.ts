/** What a kind of table may have in a column. */
export interface Member {
  readonly name: string;
  readonly title: string;
  readonly needed: boolean;
  /** What people write over such a column, in English and Spanish; compared without case, accents and what stands in brackets. */
  readonly said: readonly string[];
}

/** Which column serves which member, as a place in the header. */
export type Places = ReadonlyMap<string, number>;

/** So many characters of a header are looked at. */
const longestHeader = 200;

const plain = (header: string): string =>
  header
    .slice(0, longestHeader)
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[([{][^)\]}]*[)\]}]/g, ' ')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** The unit that a header names: `Temp (°F)`, `DO [mg/L]`, `DO, mg/L`. */
export function unitIn(header: string): string | null {
  // Longer ones name no unit, and would be gone through again and again.
  const text = header.length > longestHeader ? '' : header.trim();
  return (/[([{]([^)\]}]+)[)\]}]$/.exec(text) ?? /,([^,]+)$/.exec(text))?.[1]?.trim() ?? null;
}

/** The columns proposed for members: those whose header says the member's name or one of its words. */
export function proposed(members: readonly Member[], header: readonly string[]): Places {
  const found = new Map<string, number>();
  const taken = new Set<number>();
  const seek = (member: Member, fits: (said: string, words: readonly string[]) => boolean): void => {
    if (found.has(member.name)) return;
    const words = [member.name.replaceAll(/([a-z])([A-Z])/g, '$1 $2'), member.title, ...member.said].map(plain);
    const place = header.findIndex(
      (each, i) => !taken.has(i) && fits(plain(each.split(/,(?=[^,]*$)/)[0] ?? each), words),
    );
    if (place < 0) return;
    found.set(member.name, place);
    taken.add(place);
  };
  for (const member of members) seek(member, (said, words) => words.includes(said));
  // Then whatever only begins so: "DO conc logger 3".
  for (const member of members)
    seek(member, (said, words) => words.some((word) => word.length > 1 && said.startsWith(`${word} `)));
  return found;
}

/**
 * The columns asked for, the rest as proposed; `null` in `asked` leaves a member out. Faults name what the file does not
 * have and what the table does not know.
 */
export function matched(
  members: readonly Member[],
  header: readonly string[],
  asked: Readonly<Record<string, string | null>>,
): { readonly places: Places; readonly faults: readonly string[] } {
  const faults: string[] = [];
  const places = new Map<string, number>();
  for (const [name, column] of Object.entries(asked)) {
    if (!members.some((member) => member.name === name))
      faults.push(
        `There is no “${name}” to fill: a column may serve ${members.map((member) => member.name).join(', ')}.`,
      );
    else if (column !== null) {
      const place = header.indexOf(column);
      if (place < 0) faults.push(`The file has no column “${column}”. It has: ${header.join(', ')}.`);
      else places.set(name, place);
    }
  }
  const used = new Set(places.values());
  const open = members.filter(({ name }) => !Object.hasOwn(asked, name));
  for (const [name, place] of proposed(
    open,
    header.map((text, i) => (used.has(i) ? '' : text)),
  ))
    places.set(name, place);
  for (const { name, title, needed } of members)
    if (needed && !places.has(name)) faults.push(`No column was found for “${title}” (${name}): name one.`);
  return { places, faults };
}

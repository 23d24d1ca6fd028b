import { z } from 'zod';
import { run, withPdf } from './programs.ts';

// A PDF as qpdf, an independent reader, sees it: objects by number, their streams decoded.
const value = z.unknown();
const holder = z.object({
  qpdf: z.tuple([
    z.unknown(),
    z.record(z.string(), z.object({ value: value.optional(), stream: z.unknown().optional() })),
  ]),
});
const streamObject = z.object({ dict: z.record(z.string(), value), data: z.string().optional() });
const dictionary = z.record(z.string(), value);

/** One element of the structure tree. */
export interface Element {
  readonly kind: string;
  readonly alternative: string | null;
  readonly children: readonly Element[];
}

export interface Walked {
  readonly language: string | null;
  readonly bookmarks: number;
  readonly pages: readonly {
    /** Operators that draw text outside any marked piece: neither tagged nor an artifact. */
    readonly loose: number;
    /** Marked pieces with a number that the structure tree does not name. */
    readonly unnamed: number;
    readonly tagged: number;
  }[];
  readonly root: Element;
}

/** Reads structure and page contents back. */
export function walk(bytes: Uint8Array): Walked {
  const json = withPdf(bytes, (path) =>
    run('qpdf', '--json=2', '--json-key=qpdf', '--json-stream-data=inline', '--decode-level=all', path),
  );
  const objects = holder.parse(JSON.parse(json)).qpdf[1];
  const resolve = (from: unknown): unknown => {
    if (typeof from !== 'string' || !/^\d+ \d+ R$/.test(from)) return from;
    const object = objects[`obj:${from}`];
    return object?.stream ?? object?.value;
  };
  const dict = (from: unknown): Readonly<Record<string, unknown>> => {
    const found = resolve(from);
    const stream = streamObject.safeParse(found);
    if (stream.success) return stream.data.dict;
    const plain = dictionary.safeParse(found);
    return plain.success ? plain.data : {};
  };
  const list = (from: unknown): readonly unknown[] => {
    const found = resolve(from);
    return Array.isArray(found) ? found : found === undefined || found === null ? [] : [from];
  };
  const text = (from: unknown): string | null => {
    const found = resolve(from);
    return typeof found === 'string' ? found.replace(/^[ub]:/, '') : null;
  };

  const catalog = dict(dict(objects['trailer']?.value)['/Root']);
  const named = new Map<string, Set<number>>();
  const element = (from: unknown, page: unknown): Element => {
    const own = dict(from);
    const on = own['/Pg'] ?? page;
    const children: Element[] = [];
    for (const kid of list(own['/K'])) {
      const resolved = resolve(kid);
      const marked = typeof resolved === 'number' ? resolved : dict(kid)['/MCID'];
      if (typeof marked === 'number') {
        const where = String(typeof resolved === 'number' ? on : (dict(kid)['/Pg'] ?? on));
        named.set(where, (named.get(where) ?? new Set()).add(marked));
      } else if (dict(kid)['/S'] !== undefined) children.push(element(kid, on));
    }
    return {
      kind: String(own['/S'] ?? '').slice(1),
      alternative: text(own['/Alt'] ?? own['/ActualText']),
      children,
    };
  };
  const root = element(catalog['/StructTreeRoot'], undefined);

  const pagesOf = (from: unknown): unknown[] => {
    const node = dict(from);
    return node['/Type'] === '/Pages' ? list(node['/Kids']).flatMap(pagesOf) : [from];
  };
  const pages = pagesOf(catalog['/Pages']).map((page) => {
    const content = list(dict(page)['/Contents'])
      .map((each) => Buffer.from(streamObject.parse(resolve(each)).data ?? '', 'base64').toString('latin1'))
      .join('\n');
    const known = named.get(String(page)) ?? new Set<number>();
    return marksIn(content, known);
  });
  const outlines = dict(catalog['/Outlines']);
  return { language: text(catalog['/Lang']), bookmarks: Number(outlines['/Count'] ?? 0), pages, root };
}

/** Goes through a page's operators: what stands in marked pieces, and what does not. */
function marksIn(content: string, known: ReadonlySet<number>): Walked['pages'][number] {
  let [loose, unnamed, tagged, depth] = [0, 0, 0, 0];
  // Strings are blanked first: what is drawn must not be read as an operator.
  const bare = content.replace(/\((?:\\[^]|[^\\()])*\)/g, '()').replace(/<[0-9a-fA-F\s]*>(?!>)/g, '()');
  for (const [, operator, number] of bare.matchAll(/(\bBMC\b|\bBDC\b|\bEMC\b|\bTj\b|\bTJ\b)|\/MCID\s+(\d+)/g)) {
    if (number !== undefined) {
      if (known.has(Number(number))) tagged += 1;
      else unnamed += 1;
    } else if (operator === 'BMC' || operator === 'BDC') depth += 1;
    else if (operator === 'EMC') depth -= 1;
    else if (depth === 0) loose += 1;
  }
  return { loose, unnamed, tagged };
}

/** Every element of a kind, in reading order. */
export const elementsOf = (from: Element, kind: string): readonly Element[] => [
  ...(from.kind === kind ? [from] : []),
  ...from.children.flatMap((child) => elementsOf(child, kind)),
];

/** The levels of headings, in reading order. */
export const headingsOf = (from: Element): readonly number[] => [
  ...(/^H[1-6]$/.test(from.kind) ? [Number(from.kind.slice(1))] : []),
  ...from.children.flatMap(headingsOf),
];

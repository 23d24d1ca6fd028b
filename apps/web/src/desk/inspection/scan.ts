/** What a page's code says: which log, how many entries, their root. */
export interface Scanned {
  readonly origin: string;
  readonly size: number;
  readonly root: string;
}

/** Reads a checkpoint's body (C2SP tlog-checkpoint): origin, size, root, one a line; null for any other text. */
export function checkpointIn(text: string): Scanned | null {
  const [origin = '', size = '', root = ''] = text.split('\n');
  if (origin === '' || !/^(0|[1-9]\d{0,14})$/.test(size) || !/^[A-Za-z0-9+/]{43}=$/.test(root)) return null;
  return { origin, size: Number(size), root };
}

interface Detector {
  detect(source: ImageBitmap): Promise<readonly { readonly rawValue: string }[]>;
}

/** The browser's own reader of codes, where it has one that reads QR codes. */
async function ownDetector(): Promise<Detector | null> {
  const made: unknown = Reflect.get(globalThis, 'BarcodeDetector');
  if (typeof made !== 'function') return null;
  try {
    const formats: unknown = await Reflect.apply(Reflect.get(made, 'getSupportedFormats'), made, []);
    if (!Array.isArray(formats) || !formats.includes('qr_code')) return null;
    return Reflect.construct(made, [{ formats: ['qr_code'] }]) as Detector; // eslint-disable-line @typescript-eslint/consistent-type-assertions -- an interface of the platform that the compiler does not know yet
  } catch {
    return null;
  }
}

/** Longest side at which a picture is looked at: a code fills a good part of it, and larger only takes longer. */
const longest = 1600;

/** The text of the code in a picture; null where none is found. A library is loaded where the browser has no reader. */
export async function codeIn(picture: ImageBitmap): Promise<string | null> {
  const own = await ownDetector();
  if (own !== null) {
    const found = await own.detect(picture).catch(() => []);
    if (found[0] !== undefined) return found[0].rawValue;
  }
  const { default: decode } = await import('qr/decode.js');
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  const [width, height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (context === null) return null;
  context.drawImage(picture, 0, 0, width, height);
  const { data } = context.getImageData(0, 0, width, height);
  try {
    return decode({ width, height, data }, { timeLimit: 2_000 });
  } catch {
    return null;
  }
}

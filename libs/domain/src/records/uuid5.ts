/**
 * UUIDs of version 5 (RFC 9562 §5.5): SHA-1 (FIPS 180-4 §6.1) of a namespace and a name. Every outcome has one, seventy a
 * batch; with a hash object for each, a third of judging a season was spent on them. SHA-1 gives a name here and guards
 * nothing.
 */

const encoder = new TextEncoder();
const words = new Int32Array(80);
const state = new Int32Array(5);
let message = new Uint8Array(256);

/** The two hexadecimal digits of each byte. */
const hex = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'));

/** The 16 bytes of a UUID of any version. */
export const uuidBytes = (uuid: string): Uint8Array =>
  Uint8Array.from(uuid.replaceAll('-', '').match(/../g) ?? [], (byte) => parseInt(byte, 16));

/** The UUID of a name (UTF-8) within a namespace of 16 bytes, in lower case. */
export function uuid5(namespace: Uint8Array, name: string): string {
  const most = 16 + 3 * name.length + 72;
  if (message.length < most) message = new Uint8Array(2 * most);
  message.set(namespace);
  const length = 16 + put(name);
  hash(length);
  const b = part(1);
  const c = part(2);
  const versioned = (b & 0xffff0fff) | 0x5000;
  const variant = (c & 0x3fffffff) | 0x80000000;
  return `${eight(part(0))}-${four(versioned >>> 16)}-${four(versioned)}-${four(variant >>> 16)}-${four(variant)}${eight(part(3))}`;
}

/** Puts the name behind the namespace as UTF-8; how many bytes that are. Names are nearly always plain ASCII. */
function put(name: string): number {
  for (let i = 0; i < name.length; i += 1) {
    const code = name.charCodeAt(i);
    if (code > 127) return encoder.encodeInto(name, message.subarray(16)).written;
    message[16 + i] = code;
  }
  return name.length;
}

const four = (n: number): string => `${hex[(n >>> 8) & 255] ?? ''}${hex[n & 255] ?? ''}`;
const eight = (n: number): string => four(n >>> 16) + four(n);

/** SHA-1 of the first `length` bytes of the message, into the state; the rest of the message is overwritten. */
function hash(length: number): void {
  // A one, zeros, and the length in bits as 64 of them, up to a whole block.
  const end = ((length + 8) >> 6) * 64 + 64;
  message.fill(0, length, end);
  message[length] = 0x80;
  const bits = length * 8;
  for (let i = 0; i < 4; i += 1) message[end - 1 - i] = bits >>> (8 * i);
  state[0] = 0x67452301;
  state[1] = 0xefcdab89;
  state[2] = 0x98badcfe;
  state[3] = 0x10325476;
  state[4] = 0xc3d2e1f0;
  for (let at = 0; at < end; at += 64) block(at);
}

const byte = (at: number): number => message[at] ?? 0;
const word = (at: number): number => words[at] ?? 0;

/** One block of 64 bytes into the state (FIPS 180-4 §6.1.2). */
function block(at: number): void {
  for (let i = 0; i < 16; i += 1) {
    const j = at + 4 * i;
    words[i] = (byte(j) << 24) | (byte(j + 1) << 16) | (byte(j + 2) << 8) | byte(j + 3);
  }
  for (let i = 16; i < 80; i += 1) {
    const x = word(i - 3) ^ word(i - 8) ^ word(i - 14) ^ word(i - 16);
    words[i] = (x << 1) | (x >>> 31);
  }
  let a = part(0);
  let b = part(1);
  let c = part(2);
  let d = part(3);
  let e = part(4);
  for (let i = 0; i < 80; i += 1) {
    const mixed =
      i < 20
        ? ((b & c) | (~b & d)) + 0x5a827999
        : i < 40
          ? (b ^ c ^ d) + 0x6ed9eba1
          : i < 60
            ? ((b & c) | (b & d) | (c & d)) + 0x8f1bbcdc
            : (b ^ c ^ d) + 0xca62c1d6;
    const next = (((a << 5) | (a >>> 27)) + mixed + e + word(i)) | 0;
    e = d;
    d = c;
    c = (b << 30) | (b >>> 2);
    b = a;
    a = next;
  }
  state[0] = part(0) + a;
  state[1] = part(1) + b;
  state[2] = part(2) + c;
  state[3] = part(3) + d;
  state[4] = part(4) + e;
}

const part = (i: number): number => state[i] ?? 0;

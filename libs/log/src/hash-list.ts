import { equalBytes } from './bytes.ts';
import { hashLength } from './merkle-hash.ts';

/** A growing list of hashes in one piece of memory: a log may have millions. */
export class HashList {
  #bytes: Uint8Array;
  #length: number;

  constructor(bytes: Uint8Array = new Uint8Array(0)) {
    if (bytes.length % hashLength !== 0) throw new RangeError('a list of hashes has a multiple of 32 bytes');
    this.#bytes = bytes;
    this.#length = bytes.length / hashLength;
  }

  get length(): number {
    return this.#length;
  }

  push(hash: Uint8Array): void {
    const at = this.#length * hashLength;
    if (at + hashLength > this.#bytes.length) {
      const larger = new Uint8Array(Math.max(1024 * hashLength, this.#bytes.length * 2));
      larger.set(this.#bytes);
      this.#bytes = larger;
    }
    this.#bytes.set(hash, at);
    this.#length += 1;
  }

  equals(other: HashList): boolean {
    const length = this.#length * hashLength;
    return (
      this.#length === other.#length && equalBytes(this.#bytes.subarray(0, length), other.#bytes.subarray(0, length))
    );
  }

  at(index: number): Uint8Array {
    if (index < 0 || index >= this.#length) throw new RangeError(`no hash ${index}`);
    return this.#bytes.subarray(index * hashLength, (index + 1) * hashLength);
  }
}

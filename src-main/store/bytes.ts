/** Numbers as bytes: whole numbers in groups of seven bits, lowest first, so that small ones are short. */

const FIRST_SIZE = 1024;

export class ByteWriter {
  #buffer = new Uint8Array(FIRST_SIZE);
  #view = new DataView(this.#buffer.buffer);
  #length = 0;

  #room(bytes: number): void {
    if (this.#length + bytes <= this.#buffer.length) return;
    const larger = new Uint8Array(Math.max(2 * this.#buffer.length, this.#length + bytes));
    larger.set(this.#buffer);
    this.#buffer = larger;
    this.#view = new DataView(larger.buffer);
  }

  byte(value: number): void {
    this.#room(1);
    this.#buffer[this.#length++] = value;
  }

  /** A whole number from 0 to 2^53 - 1. */
  unsigned(value: number): void {
    this.#room(8);
    let rest = value;
    while (rest >= 0x80) {
      this.#buffer[this.#length++] = (rest % 0x80) | 0x80;
      rest = Math.floor(rest / 0x80);
    }
    this.#buffer[this.#length++] = rest;
  }

  /** A whole number below 2^52 in size; small ones of either sign are short. */
  signed(value: number): void {
    this.unsigned(value >= 0 ? 2 * value : -2 * value - 1);
  }

  float64(value: number): void {
    this.#room(8);
    this.#view.setFloat64(this.#length, value, true);
    this.#length += 8;
  }

  bytes(): Uint8Array {
    return this.#buffer.subarray(0, this.#length);
  }
}

/** Reads what `ByteWriter` wrote; `cutShort` makes the error for bytes that end too early or make no number. */
export class ByteReader {
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  readonly #cutShort: () => Error;
  #at = 0;

  constructor(bytes: Uint8Array, cutShort: () => Error) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#cutShort = cutShort;
  }

  get atEnd(): boolean {
    return this.#at === this.#bytes.length;
  }

  byte(): number {
    if (this.#at >= this.#bytes.length) throw this.#cutShort();
    return this.#bytes[this.#at++];
  }

  unsigned(): number {
    let value = 0;
    for (let scale = 1; ; scale *= 0x80) {
      const byte = this.byte();
      value += (byte & 0x7f) * scale;
      if (value > Number.MAX_SAFE_INTEGER) throw this.#cutShort();
      if (byte < 0x80) return value;
    }
  }

  signed(): number {
    const value = this.unsigned();
    return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
  }

  float64(): number {
    if (this.#at + 8 > this.#bytes.length) throw this.#cutShort();
    const value = this.#view.getFloat64(this.#at, true);
    this.#at += 8;
    return value;
  }
}

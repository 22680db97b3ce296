/** Words and numbers of plain text, read from its bytes: files of many megabytes are never held as one string. */

const powers = Float64Array.from({ length: 23 }, (_, k) => 10 ** k);

const space = 32;
const newline = 10;
const carriage = 13;

/** A reader that stands at a place in the text. Lines end with a newline; a backslash before it carries a line on. */
export class TextReader {
  readonly bytes: Uint8Array;
  at = 0;
  line = 1;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  get ended(): boolean {
    return this.at >= this.bytes.length;
  }

  /** Goes to the next word of this line; false when there is none. */
  toWord(): boolean {
    const { bytes } = this;
    for (; this.at < bytes.length; this.at++) {
      const byte = bytes[this.at]!;
      if (byte === newline) return false;
      if (byte === 92 && this.carriesOn()) continue;
      // Spaces, tabs and all other control characters part words.
      if (byte > space) return true;
    }
    return false;
  }

  private carriesOn(): boolean {
    const { bytes } = this;
    const next = bytes[this.at + 1] === carriage ? this.at + 2 : this.at + 1;
    if (bytes[next] !== newline) return false;
    this.line += 1;
    this.at = next;
    return true;
  }

  /** The word that starts here; the reader goes past it. Cut off at 40 letters. */
  word(): string {
    const start = this.at;
    this.skipWord();
    return String.fromCharCode(...this.bytes.subarray(start, Math.min(this.at, start + 40)));
  }

  skipWord(): void {
    const { bytes } = this;
    while (this.at < bytes.length && bytes[this.at]! > space) this.at += 1;
  }

  /** Goes to the start of the next line. */
  nextLine(): void {
    const { bytes } = this;
    while (this.at < bytes.length && bytes[this.at] !== newline) this.at += 1;
    this.at += 1;
    this.line += 1;
  }

  /** The number that starts here; NaN when the word is none. The reader goes past it. */
  number(): number {
    const { bytes } = this;
    const start = this.at;
    let at = start;
    let byte = bytes[at]!;
    const negative = byte === 45;
    if (negative || byte === 43) byte = bytes[++at]!;
    let digits = 0;
    let mantissa = 0;
    let exponent = 0;
    while (byte >= 48 && byte <= 57) {
      mantissa = mantissa * 10 + (byte - 48);
      digits += 1;
      byte = bytes[++at]!;
    }
    if (byte === 46) {
      byte = bytes[++at]!;
      while (byte >= 48 && byte <= 57) {
        mantissa = mantissa * 10 + (byte - 48);
        digits += 1;
        exponent -= 1;
        byte = bytes[++at]!;
      }
    }
    if (digits > 0 && (byte === 101 || byte === 69)) {
      let power = 0;
      let places = 0;
      byte = bytes[++at]!;
      const down = byte === 45;
      if (down || byte === 43) byte = bytes[++at]!;
      while (byte >= 48 && byte <= 57) {
        power = power * 10 + (byte - 48);
        places += 1;
        byte = bytes[++at]!;
      }
      if (places === 0) digits = 0;
      exponent += down ? -power : power;
    }
    this.at = at;
    const whole = at >= bytes.length || byte <= space;
    if (digits === 0 || !whole) {
      this.skipWord();
      return Number.NaN;
    }
    // So few digits and so small a power are exact, and so is the one rounding of their product or quotient.
    if (mantissa < 2 ** 53 && exponent >= -22 && exponent <= 22) {
      const value = exponent < 0 ? mantissa / powers[-exponent]! : mantissa * powers[exponent]!;
      return negative ? -value : value;
    }
    return Number(String.fromCharCode(...bytes.subarray(start, at)));
  }
}

// Stands in the technician's page for the package that hashes texts: SHA-256 as FIPS 180-4 writes it, and
// nothing else of the package. A test holds it against the whole.

/** The first 32 bits behind the point of the square roots (2) or cube roots (3) of the first primes. */
function rootBits(count: number, root: 2 | 3): readonly number[] {
  const primes: number[] = [];
  for (let n = 2; primes.length < count; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
  return primes.map((prime) => {
    const of = root === 2 ? Math.sqrt(prime) : Math.cbrt(prime);
    return Math.floor((of % 1) * 2 ** 32) | 0;
  });
}

const START = rootBits(8, 2);
const ROUNDS = rootBits(64, 3);

export function sha256(bytes: Uint8Array): Uint8Array {
  // The message, a one bit, noughts, and the length in bits, in blocks of 64 bytes.
  const padded = new DataView(new ArrayBuffer(((bytes.length + 72) >> 6) << 6));
  new Uint8Array(padded.buffer).set(bytes);
  padded.setUint8(bytes.length, 0x80);
  padded.setUint32(padded.byteLength - 8, Math.floor(bytes.length / 2 ** 29));
  padded.setUint32(padded.byteLength - 4, bytes.length << 3);
  const hash = Int32Array.from(START);
  const words = new Int32Array(64);
  for (let at = 0; at < padded.byteLength; at += 64) {
    for (let i = 0; i < 64; i++)
      words[i] =
        i < 16
          ? padded.getInt32(at + 4 * i)
          : words[i - 16]! +
            turned(words[i - 15]!, 7, 18, -3) +
            words[i - 7]! +
            turned(words[i - 2]!, 17, 19, -10);
    addBlock(hash, words);
  }
  const out = new DataView(new ArrayBuffer(32));
  hash.forEach((word, i) => out.setInt32(4 * i, word));
  return new Uint8Array(out.buffer);
}

/** Three turns to the right put together; the last is a plain shift where it is below nought. */
function turned(x: number, a: number, b: number, c: number): number {
  const turn = (by: number) => (x >>> by) | (x << (32 - by));
  return turn(a) ^ turn(b) ^ (c < 0 ? x >>> -c : turn(c));
}

function addBlock(hash: Int32Array, words: Int32Array): void {
  let [a, b, c, d, e, f, g, h] = hash as unknown as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  for (let i = 0; i < 64; i++) {
    const first = (h + turned(e, 6, 11, 25) + ((e & f) ^ (~e & g)) + ROUNDS[i]! + words[i]!) | 0;
    const second = (turned(a, 2, 13, 22) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => {
    hash[i] = hash[i]! + word;
  });
}

export const utf8ToBytes = (text: string): Uint8Array => new TextEncoder().encode(text);
export const bytesToHex = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");

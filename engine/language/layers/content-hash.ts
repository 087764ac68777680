// A book's content hash: equal for equal texts with equal dependencies, whatever the ends of their lines.
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

export interface Dependency {
  readonly name: string;
  readonly edition: number | undefined;
  /** SHA-256 in hex; "" for a book that cannot be found. */
  readonly fingerprint: string;
}

/** SHA-256 (FIPS 180-4) over the text with its line ends made one, and over what it depends on. */
export function contentHash(text: string, dependencies: readonly Dependency[]): string {
  const under = dependencies.map((one) => `\n${one.name}\t${one.edition ?? ""}\t${one.fingerprint}`).join("");
  return bytesToHex(sha256(utf8ToBytes(`${text.replace(/\r\n?/g, "\n")}\u0000${under}`)));
}

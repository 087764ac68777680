// A book's fingerprint: equal for equal texts on equal ground, whatever the ends of their lines.
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";

export interface Dependency {
  readonly name: string;
  readonly edition: number | undefined;
  /** SHA-256 in hex; "" for a book that is not at hand. */
  readonly fingerprint: string;
}

/** SHA-256 (FIPS 180-4) over the text with its line ends made one, and over what it stands on. */
export function contentHash(text: string, stands: readonly Dependency[]): string {
  const ground = stands.map((one) => `\n${one.name}\t${one.edition ?? ""}\t${one.fingerprint}`).join("");
  return bytesToHex(sha256(utf8ToBytes(`${text.replace(/\r\n?/g, "\n")}\u0000${ground}`)));
}

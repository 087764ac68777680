// The print of bytes and of a book's text: SHA-256 in hexadecimal. Where the browser has no such function of
// its own (a page that did not come over a safe line), a library is fetched that has.

/** SHA-256 of bytes, 64 hexadecimal digits. */
export async function hashBytes(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest =
    globalThis.crypto?.subtle !== undefined
      ? new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))
      : (await import("@noble/hashes/sha2.js")).sha256(bytes);
  return [...digest].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** The print that names a book of one text. */
export const hashText = (text: string): Promise<string> => hashBytes(new TextEncoder().encode(text));

/** A UUID of chance, also where the page did not come over a safe line. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

// Books from files and to files. A file that cannot be a book is refused in one sentence and changes nothing.
import { MAX_BOOK_BYTES, mebibytes } from "../../../core/limits.ts";

export type Opened = { readonly text: string } | { readonly refused: string };

/** Why a file of so many bytes is not opened. */
export const tooLarge = (name: string, bytes: number): string =>
  `${name} is ${(bytes / 1024 / 1024).toFixed(1)} MiB. ` +
  `A book is at most ${mebibytes(MAX_BOOK_BYTES)}. Nothing was opened.`;

/** Reads the bytes of a file as a book's text; lines end with a plain line feed afterwards. */
export function textOfFile(name: string, bytes: Uint8Array): Opened {
  if (bytes.length === 0) return { refused: `${name} is empty. Nothing was opened.` };
  if (bytes.length > MAX_BOOK_BYTES) return { refused: tooLarge(name, bytes.length) };
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return {
      refused: `${name} is written in UTF-16. Save it as UTF-8 and open it again. Nothing was opened.`,
    };
  }
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return { refused: `${name} is not UTF-8 text. Save it as UTF-8 and open it again. Nothing was opened.` };
  }
  if (text.includes("\0")) return { refused: `${name} is not a text file. Nothing was opened.` };
  const even = text.replace(/\r\n?/g, "\n");
  if (even.trim() === "") return { refused: `${name} holds only blank lines. Nothing was opened.` };
  return { text: even };
}

/** Hands the text to the browser as a file to be saved. */
export function saveToFile(name: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: "text/plain;charset=utf-8" }));
  const link = document.createElement("a");
  link.href = address;
  link.download = `${name || "book"}.bevel`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

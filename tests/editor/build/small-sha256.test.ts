// The small hash of the technician's page, against that of Node (OpenSSL) and the examples of FIPS 180-4 as
// NIST gives them.
import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { bytesToHex, sha256, utf8ToBytes } from "../../../editor/build/small-sha256.ts";

const hex = (text: string) => bytesToHex(sha256(utf8ToBytes(text)));

test("the examples of NIST", () => {
  expect(hex("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect(hex("")).toBe("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  expect(hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  );
});

test("bytes of every length up to three blocks, and texts of any alphabet", () => {
  for (let length = 0; length <= 200; length++) {
    const bytes = Uint8Array.from({ length }, (_, i) => (i * 37 + length) % 256);
    expect(bytesToHex(sha256(bytes))).toBe(createHash("sha256").update(bytes).digest("hex"));
  }
  fc.assert(
    fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), (text) => {
      expect(hex(text)).toBe(createHash("sha256").update(text).digest("hex"));
    }),
    { seed: 1, numRuns: 100 },
  );
});

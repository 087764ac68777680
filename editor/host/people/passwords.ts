// Passwords: which are taken, and how they are kept. Hashed with Argon2id at 19 MiB, 2 passes, 1 lane, as the
// OWASP Password Storage Cheat Sheet asks at least. Length alone is asked for and the commonest are refused,
// as NIST SP 800-63B, 5.1.1.2 says; no rules of what they are made of.
import { hash, verify } from "@node-rs/argon2";
import { randomBytes } from "node:crypto";
import { passwordLength } from "../../../core/schemas/host.ts";
import { trouble } from "../trouble.ts";

// 2 stands for Argon2id; the package's names for it are gone when it runs.
const how = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/**
 * Each hashing takes 19 MiB and a core for a moment: so many may wait, the next are asked to try again
 * later.
 */
const mostAtOnce = 16;
let running = 0;

/** The same signs typed on another keyboard are the same password. */
const evened = (password: string): string => password.normalize("NFKC");

/** Throws a sentence for a password that is not taken. */
export function checkPassword(password: string, name: string): void {
  const signs = [...evened(password)].length;
  if (signs < passwordLength.least) throw trouble("password-short", { least: passwordLength.least });
  if (signs > passwordLength.most) throw trouble("password-long", { most: passwordLength.most });
  const plain = evened(password)
    .toLowerCase()
    .replace(/[\s._-]/g, "");
  if (
    common.has(plain) ||
    common.has(plain.replace(/\d+$/, "")) ||
    new Set(plain).size < 4 ||
    plain ===
      name
        .normalize("NFKC")
        .toLowerCase()
        .replace(/[\s._-]/g, "")
  )
    throw trouble("password-common");
}

export const hashPassword = (password: string): Promise<string> => inTurn(() => hash(evened(password), how));

/** Whether it is the one; as long as for a name that exists where there is none (`kept` undefined). */
export async function isPassword(kept: string | undefined, password: string): Promise<boolean> {
  nobodys ??= hash(randomBytes(32), how);
  const against = kept ?? (await nobodys);
  const same = await inTurn(() => verify(against, evened(password)));
  return same && kept !== undefined;
}
let nobodys: Promise<string> | undefined;

async function inTurn<T>(action: () => Promise<T>): Promise<T> {
  if (running >= mostAtOnce) throw trouble("sign-in-busy");
  running += 1;
  try {
    return await action();
  } finally {
    running -= 1;
  }
}

/**
 * Of ten characters and more, or that become so with figures behind: from memory, of the kind that every
 * published list begins with.
 */
const common = new Set([
  "password",
  "passwords",
  "passwort",
  "contraseña",
  "contrasena",
  "qwerty",
  "qwertyuiop",
  "qwertzuiop",
  "azertyuiop",
  "asdfghjkl",
  "asdfghjklñ",
  "zxcvbnm",
  "qazwsx",
  "qazwsxedc",
  "1qaz2wsx3edc",
  "1q2w3e4r5t",
  "1q2w3e4r5t6y",
  "qwerty123456",
  "qwer1234",
  "1234567890",
  "12345678910",
  "123456789a",
  "0123456789",
  "0987654321",
  "9876543210",
  "123123123",
  "1231231234",
  "1122334455",
  "1234512345",
  "abcdefghij",
  "abcdefghijk",
  "abc123abc123",
  "abcd1234",
  "a123456789",
  "letmein",
  "letmeinplease",
  "welcome",
  "welcomehome",
  "iloveyou",
  "administrator",
  "admin",
  "adminadmin",
  "administrador",
  "changeme",
  "changemenow",
  "changeit",
  "default",
  "secret",
  "supersecret",
  "topsecret",
  "passw0rd",
  "p@ssword",
  "p@ssw0rd",
  "passwordpassword",
  "mypassword",
  "newpassword",
  "superman",
  "spiderman",
  "batman",
  "dragon",
  "monkey",
  "football",
  "baseball",
  "basketball",
  "sunshine",
  "princess",
  "trustno1",
  "starwars",
  "whatever",
  "computer",
  "internet",
  "michelle",
  "bevelbook",
  "bevelbookbevelbook",
  "workshop",
  "technician",
  "bodyshop",
]);

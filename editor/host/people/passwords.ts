// Passwords: which are taken, and how they are kept. Hashed with Argon2id at 19 MiB, 2 passes, 1 lane, as the
// OWASP Password Storage Cheat Sheet asks at least. Length alone is asked for, and what stands in lists of
// the commonest or is made of it by habit is refused, as NIST SP 800-63B, 5.1.1.2 says; no rules of what they
// are made of.
import { hash, verify } from "@node-rs/argon2";
import { randomBytes } from "node:crypto";
import { passwordLength } from "../../../core/schemas/host.ts";
import { trouble } from "../trouble.ts";

// 2 stands for Argon2id; the package's names for it are gone when it runs.
const how = { algorithm: 2, memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** Of a password that is taken, as a power of ten: what the commonest and their likes do not reach. */
const fewestGuesses = 6;

/**
 * Each hashing takes 19 MiB and a core for a moment: so many may wait, the next are asked to try again
 * later.
 */
const mostAtOnce = 16;
let running = 0;

/** The same signs typed on another keyboard are the same password. */
const evened = (password: string): string => password.normalize("NFKC");

/** Throws a sentence for a password that is not taken. */
export async function checkPassword(password: string, name: string): Promise<void> {
  const signs = [...evened(password)].length;
  if (signs < passwordLength.least) throw trouble("password-short", { least: passwordLength.least });
  if (signs > passwordLength.most) throw trouble("password-long", { most: passwordLength.most });
  if ((await guessesOf(evened(password), name)) < fewestGuesses) throw trouble("password-common");
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

/** Words of the trade, and of languages that the list does not have. */
const ownWords = [
  ...["bevelbook", "workshop", "bodyshop", "technician", "taller", "carrocería", "werkstatt"],
  ...["contraseña", "contrasena", "administrador", "passwort", "kennwort"],
];

/** Guesses that somebody needs who knows the lists, 10 to the power of this; loaded when first needed. */
async function guessesOf(password: string, name: string): Promise<number> {
  estimator ??= loadEstimator();
  return (await estimator).check(password, [...ownWords, name, ...name.split(/\s+/)]).guessesLog10;
}
let estimator: ReturnType<typeof loadEstimator> | undefined;

async function loadEstimator() {
  const [{ ZxcvbnFactory }, { adjacencyGraphs, dictionary }] = await Promise.all([
    import("@zxcvbn-ts/core"),
    import("@zxcvbn-ts/language-common"),
  ]);
  return new ZxcvbnFactory({ dictionary, graphs: adjacencyGraphs });
}

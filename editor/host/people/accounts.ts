// The people of a shop that serves a network: sessions, invitations, roles. Tokens are 256 random bits and
// only their hashes are kept.
import { randomBytes, randomUUID } from "node:crypto";
import type { Role } from "../../../core/schemas/host.ts";
import { sha256, tokenName } from "../database/log-chain.ts";
import type { AddToLog, Database } from "../database/database.ts";
import { trouble } from "../trouble.ts";
import { isMixed, nameKeyOf } from "./name-key.ts";
import { beginAttempt, endAttempt, forgetAttempts, logFailure } from "./attempts.ts";
import { checkPassword, hashPassword, isPassword } from "./passwords.ts";

type Tx = Parameters<Parameters<Database["write"]>[1]>[0];
export interface Known {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}

/** Milliseconds without a question after which a session ends, and after which it ends in any case. */
export const idle = 12 * 3600_000;
export const longest = 14 * 24 * 3600_000;
const seenEvery = 5 * 60_000;
/** Of the first lead's and a new password's invitation; of the others. */
const anHour = 3600_000;
const aDay = 24 * 3600_000;

/** How the log speaks of a token. */
const nameOf = (token: string): string => tokenName(sha256(token));
const freshToken = (): string => randomBytes(32).toString("base64url");
export const invitationPath = (token: string): string => `sign-in.html#invited=${token}`;

// ───────────── sessions ─────────────

/** The token of a new session, or a refusal that does not reveal whether there is such a name. */
export async function signIn(
  database: Database,
  {
    name,
    password,
    address,
    device,
    old,
  }: {
    readonly name: string;
    readonly password: string;
    readonly address: string;
    readonly device: string;
    readonly old?: string | undefined;
  },
): Promise<{ readonly token: string; readonly person: Known }> {
  const nameKey = nameKeyOf(name);
  await beginAttempt(database, address, nameKey);
  const found = await database.db
    .selectFrom("people")
    .selectAll()
    .where("name_key", "=", nameKey)
    .executeTakeFirst();
  if (!(await isPassword(found?.password, password)) || found === undefined) {
    await logFailure(database, address, nameKey, found?.name);
    throw trouble("sign-in-wrong");
  }
  await endAttempt(database, address, nameKey);
  return database.write(found.name, async (tx, log, at) => {
    // What was true when the password was looked at may not be any more.
    const now = await tx
      .selectFrom("people")
      .select(["role", "password"])
      .where("id", "=", found.id)
      .executeTakeFirst();
    if (now === undefined || now.password !== found.password) throw trouble("sign-in-wrong");
    await tx
      .deleteFrom("sessions")
      .where((eb) =>
        eb.or([
          eb("seen", "<", at - idle),
          eb("begun", "<", at - longest),
          eb("token", "=", sha256(old ?? "")),
        ]),
      )
      .execute();
    const token = await begin(tx, found.id, device, at);
    await log("signed in", { address, device, token: nameOf(token) });
    return { token, person: { id: found.id, name: found.name, role: now.role } };
  });
}

async function begin(
  tx: Tx,
  person: string,
  device: string,
  at: number,
  token = freshToken(),
): Promise<string> {
  await tx
    .insertInto("sessions")
    .values({ token: sha256(token), person, begun: at, seen: at, device: device.slice(0, 200) })
    .execute();
  return token;
}

/** Whose session this is; undefined where there is none or it has ended. With `touch` it counts as used. */
export async function personOf(
  database: Database,
  token: string,
  touch: boolean,
): Promise<Known | undefined> {
  const now = Date.now();
  const found = await database.db
    .selectFrom("sessions")
    .innerJoin("people", "people.id", "sessions.person")
    .select(["people.id", "people.name", "people.role", "sessions.begun", "sessions.seen"])
    .where("sessions.token", "=", sha256(token))
    .executeTakeFirst();
  if (found === undefined || found.seen < now - idle || found.begun < now - longest) return undefined;
  if (touch && found.seen < now - seenEvery)
    await database
      .write(found.name, (tx, _tell, at) =>
        tx.updateTable("sessions").set({ seen: at }).where("token", "=", sha256(token)).execute(),
      )
      .catch(() => undefined);
  return { id: found.id, name: found.name, role: found.role };
}

export async function signOut(database: Database, token: string): Promise<void> {
  const person = await personOf(database, token, false);
  await database.write(person?.name ?? "nobody", async (tx, log) => {
    await tx.deleteFrom("sessions").where("token", "=", sha256(token)).execute();
    if (person !== undefined) await log("signed out", {});
  });
}

/** Ends all sessions of the person and begins one for this browser. */
export async function changePassword(
  database: Database,
  person: Known,
  {
    old,
    password,
    address,
    device,
  }: { readonly old: string; readonly password: string; readonly address: string; readonly device: string },
): Promise<string> {
  await checkPassword(password, person.name);
  await beginAttempt(database, address, nameKeyOf(person.name));
  const found = await database.db
    .selectFrom("people")
    .select("password")
    .where("id", "=", person.id)
    .executeTakeFirst();
  if (!(await isPassword(found?.password, old))) {
    await logFailure(database, address, nameKeyOf(person.name), person.name);
    throw trouble("password-wrong");
  }
  await endAttempt(database, address, nameKeyOf(person.name));
  const kept = await hashPassword(password);
  return database.write(person.name, async (tx, log, at) => {
    await tx.updateTable("people").set({ password: kept }).where("id", "=", person.id).execute();
    await tx.deleteFrom("sessions").where("person", "=", person.id).execute();
    const token = await begin(tx, person.id, device, at);
    await log("password changed", { kept: sha256(kept), token: nameOf(token) });
    return token;
  });
}

// ───────────── invitations ─────────────

/** Its token; for a person who is there already it sets a new password. */
export const invite = (
  database: Database,
  who: string,
  role: Role,
  person?: { readonly id: string; readonly name: string },
): Promise<Invited> =>
  database.write(who, async (tx, log, at) => {
    if (person !== undefined) await forgetAttempts(tx, nameKeyOf(person.name));
    return addInvitation(tx, log, at, {
      who,
      role,
      lasts: person === undefined ? aDay : anHour,
      ...(person === undefined ? {} : { person }),
    });
  });

interface Invited {
  readonly token: string;
  readonly ends: number;
}

async function addInvitation(
  tx: Tx,
  log: AddToLog,
  at: number,
  {
    who,
    role,
    person,
    lasts,
  }: {
    readonly who: string;
    readonly role: Role;
    readonly person?: { readonly id: string; readonly name: string };
    readonly lasts: number;
  },
): Promise<Invited> {
  const token = freshToken();
  await tx.deleteFrom("invitations").where("ends", "<", at).execute();
  await tx
    .insertInto("invitations")
    .values({ token: sha256(token), role, person: person?.id ?? null, who, made: at, ends: at + lasts })
    .execute();
  await log("invited", {
    role,
    token: nameOf(token),
    ...(person === undefined ? {} : { name: person.name }),
  });
  return { token, ends: at + lasts };
}

/**
 * Where there is no lead yet: the invitation of the first, in the place of any that a host made before, this
 * one or another on the same database. Undefined where there is a lead.
 */
export async function inviteFirst(database: Database): Promise<Invited | undefined> {
  if ((await aLead(database.db)) !== undefined) return undefined;
  // Looked at and made in one write: of two hosts that start together only the later one's address opens, and
  // none once someone has come in.
  return database.write(theHost, async (tx, log, at) => {
    if ((await aLead(tx)) !== undefined) return undefined;
    await tx.deleteFrom("invitations").where("who", "=", theHost).execute();
    return addInvitation(tx, log, at, { who: theHost, role: "lead", lasts: anHour });
  });
}
const theHost = "the host";
const aLead = (db: Database["db"] | Tx) =>
  db.selectFrom("people").select("id").where("role", "=", "lead").limit(1).executeTakeFirst();

export async function lookAtInvitation(
  database: Database,
  token: string,
  address: string,
): Promise<{ readonly role: Role; readonly name?: string; readonly ends: number }> {
  await beginAttempt(database, address);
  const found = await openInvitation(database.db, token);
  await endAttempt(database, address);
  return { role: found.role, ends: found.ends, ...(found.name === null ? {} : { name: found.name }) };
}

async function openInvitation(db: Database["db"] | Tx, token: string) {
  const found = await db
    .selectFrom("invitations")
    .leftJoin("people", "people.id", "invitations.person")
    .select(["invitations.role", "invitations.ends", "invitations.person", "people.name"])
    .where("invitations.token", "=", sha256(token))
    .executeTakeFirst();
  if (found === undefined || found.ends < Date.now() || (found.person !== null && found.name === null))
    throw trouble((await aLead(db)) === undefined ? "invitation-over-no-lead" : "invitation-over");
  return found;
}

export async function takeInvitation(
  database: Database,
  {
    token,
    name,
    password,
    address,
    device,
  }: {
    readonly token: string;
    readonly name?: string | undefined;
    readonly password: string;
    readonly address: string;
    readonly device: string;
  },
): Promise<{ readonly token: string; readonly person: Known }> {
  await beginAttempt(database, address);
  const known = await openInvitation(database.db, token);
  await endAttempt(database, address);
  const called = known.name ?? name?.trim().normalize("NFC") ?? "";
  if (called === "") throw trouble("name-missing");
  if (known.name === null && isMixed(called)) throw trouble("name-mixed");
  await checkPassword(password, called);
  const kept = await hashPassword(password);
  return database.write(called, async (tx, log, at) => {
    const invitation = await openInvitation(tx, token);
    await tx.deleteFrom("invitations").where("token", "=", sha256(token)).execute();
    const id = invitation.person ?? randomUUID();
    const session = freshToken();
    const said = { kept: sha256(kept), token: nameOf(session) };
    if (invitation.person === null) {
      if (await wasTaken(tx, called)) throw trouble("name-taken");
      await tx
        .insertInto("people")
        .values({
          id,
          name: called,
          name_key: nameKeyOf(called),
          role: invitation.role,
          password: kept,
          made: at,
        })
        .execute();
      // Who comes in as a lead is the first or has one to ask: the host's own way in is over.
      if (invitation.role === "lead") await tx.deleteFrom("invitations").where("who", "=", theHost).execute();
      await log("joined", { role: invitation.role, address, id, ...said });
    } else {
      await tx.updateTable("people").set({ password: kept }).where("id", "=", id).execute();
      await tx.deleteFrom("sessions").where("person", "=", id).execute();
      await log("password set anew", { address, ...said });
    }
    const role = (await tx.selectFrom("people").select("role").where("id", "=", id).executeTakeFirstOrThrow())
      .role;
    await begin(tx, id, device, at, session);
    return { token: session, person: { id, name: called, role } };
  });
}
/** Somebody has the name or had it once: what stands under it in the log and under jobs is theirs. */
async function wasTaken(tx: Tx, name: string): Promise<boolean> {
  const key = nameKeyOf(name);
  if (reserved.has(key)) return true;
  const now = await tx.selectFrom("people").select("id").where("name_key", "=", key).executeTakeFirst();
  if (now !== undefined) return true;
  const ever = await tx.selectFrom("log").select("who").distinct().where("what", "=", "joined").execute();
  return ever.some(({ who }) => nameKeyOf(who) === key);
}

/** By these names the log speaks of what is no person. */
const reserved = new Set(["this desk", "the terminal", theHost, "nobody"]);

// ───────────── a lead looks after people ─────────────

export async function listPeople(database: Database) {
  const now = Date.now();
  const [people, sessions, invitations] = await Promise.all([
    database.db.selectFrom("people").select(["id", "name", "role", "made"]).orderBy("name_key").execute(),
    database.db
      .selectFrom("sessions")
      .select(["person", "begun", "seen", "device"])
      .where("seen", ">", now - idle)
      .where("begun", ">", now - longest)
      .orderBy("seen", "desc")
      .execute(),
    database.db
      .selectFrom("invitations")
      .leftJoin("people", "people.id", "invitations.person")
      .select(["invitations.token", "invitations.role", "invitations.who", "invitations.ends", "people.name"])
      .where("ends", ">", now)
      .orderBy("ends")
      .execute(),
  ]);
  return {
    people: people.map((one) => ({
      ...one,
      sessions: sessions
        .filter((session) => session.person === one.id)
        .map(({ begun, seen, device }) => ({ begun, seen, device })),
    })),
    // A part of the hash names it well enough and opens nothing.
    invitations: invitations.map(({ token, name, ...rest }) => ({
      id: token.slice(0, 16),
      ...rest,
      ...(name === null ? {} : { name }),
    })),
  };
}

export const takeBackInvitation = (database: Database, who: string, id: string): Promise<void> =>
  database.write(who, async (tx, log) => {
    const { numDeletedRows } = await tx
      .deleteFrom("invitations")
      .where("token", "like", `${id}%`)
      .executeTakeFirst();
    if (numDeletedRows === 0n) throw trouble("invitation-unknown");
    await log("invitation taken back", {});
  });

export const changeRole = (database: Database, who: string, id: string, role: Role): Promise<void> =>
  onPerson(database, who, id, async (tx, log, person) => {
    if (person.role === role) return;
    if (person.role === "lead") await keepOneLead(tx, id);
    await tx.updateTable("people").set({ role }).where("id", "=", id).execute();
    await log("role changed", { name: person.name, from: person.role, to: role });
  });

export const endSessions = (database: Database, who: string, id: string): Promise<void> =>
  onPerson(database, who, id, async (tx, log, person) => {
    await tx.deleteFrom("sessions").where("person", "=", id).execute();
    await log("sessions ended", { name: person.name });
  });

/** What the person did stays, under the name. */
export const removePerson = (database: Database, who: string, id: string): Promise<void> =>
  onPerson(database, who, id, async (tx, log, person) => {
    if (person.role === "lead") await keepOneLead(tx, id);
    await tx.deleteFrom("sessions").where("person", "=", id).execute();
    await tx.deleteFrom("invitations").where("person", "=", id).execute();
    await tx.deleteFrom("people").where("id", "=", id).execute();
    await log("removed", { name: person.name, role: person.role });
  });

const onPerson = (
  database: Database,
  who: string,
  id: string,
  action: (tx: Tx, log: AddToLog, person: Known) => Promise<void>,
): Promise<void> =>
  database.write(who, async (tx, log) => {
    const person = await tx
      .selectFrom("people")
      .select(["id", "name", "role"])
      .where("id", "=", id)
      .executeTakeFirst();
    if (person === undefined) throw trouble("person-unknown");
    await action(tx, log, person);
  });

async function keepOneLead(tx: Tx, id: string): Promise<void> {
  if (
    (await tx
      .selectFrom("people")
      .select("id")
      .where("role", "=", "lead")
      .where("id", "<>", id)
      .limit(1)
      .executeTakeFirst()) === undefined
  )
    throw trouble("last-lead");
}

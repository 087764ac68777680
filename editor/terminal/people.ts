// `bevelbook people`: who may sign in, invitations made at the host's machine, and a way back in for a lead
// who has lost the password.
import type { Role } from "../../core/schemas/host.ts";
import { type Command, CallError, type Io, counted, printJson } from "./call.ts";
import type { Database } from "../host/database/database.ts";
import { atTheTerminal, withDatabase } from "./open-database.ts";

const roles: readonly Role[] = ["lead", "technician", "viewer"];

export const peopleCommand: Command = {
  usage: "[list | invite lead|technician|viewer | reset NAME] [--json]",
  says:
    "Lists the people of a host that serves a network; invites one; or makes an address at which NAME " +
    "chooses a new password. The host may run.",
  options: { json: { type: "boolean" } },
  run: async ([word = "list", ...rest], { json }, io) => {
    switch (word) {
      case "list":
        if (rest.length > 0) throw new CallError("bevelbook people list takes nothing more.");
        return list(io, json === true);
      case "invite":
        return inviteRole(io, rest, json === true);
      case "reset":
        return reset(io, rest.join(" "), json === true);
      default:
        throw new CallError(`bevelbook people takes list, invite or reset, not “${word}”.`);
    }
  },
};

async function list(io: Io, json: boolean): Promise<0 | 1> {
  const { listPeople } = await import("../host/people/accounts.ts");
  const print = async (database: Database): Promise<0> => {
    const { people, invitations } = await listPeople(database);
    if (json) {
      printJson(io, { people, invitations });
      return 0;
    }
    if (people.length === 0) io.stdout.write("Nobody is known yet.\n");
    for (const { role, name, sessions } of people)
      io.stdout.write(`${role.padEnd(10)}  ${name}  (${counted(sessions.length, "session")})\n`);
    if (invitations.length > 0) io.stdout.write(`Open invitations: ${invitations.length}\n`);
    return 0;
  };
  return withDatabase(io, print, { reading: true });
}

async function inviteRole(io: Io, words: readonly string[], json: boolean): Promise<0 | 1> {
  const { invite } = await import("../host/people/accounts.ts");
  const role = roles.find((one) => one === words[0]);
  if (role === undefined || words.length !== 1)
    throw new CallError("Say whom: bevelbook people invite lead, technician or viewer.");
  return withDatabase(io, async (database) =>
    printInvitation(io, await invite(database, atTheTerminal, role), json),
  );
}

async function reset(io: Io, name: string, json: boolean): Promise<0 | 1> {
  const [{ invite, listPeople }, { nameKeyOf }] = await Promise.all([
    import("../host/people/accounts.ts"),
    import("../host/people/name-key.ts"),
  ]);
  if (name === "") throw new CallError("Say whose password: bevelbook people reset NAME.");
  return withDatabase(io, async (database) => {
    const { people } = await listPeople(database);
    const found = people.find((one) => nameKeyOf(one.name) === nameKeyOf(name));
    if (found === undefined) throw new CallError(`Nobody is known by the name ${name}.`);
    return printInvitation(io, await invite(database, atTheTerminal, found.role, found), json);
  });
}

async function printInvitation(
  io: Io,
  { token, ends }: { readonly token: string; readonly ends: number },
  json: boolean,
): Promise<0> {
  const { invitationPath } = await import("../host/people/accounts.ts");
  const path = invitationPath(token);
  const until = new Date(ends).toISOString();
  if (json) io.stdout.write(`${JSON.stringify({ path, ends })}\n`);
  else io.stdout.write(`Add this to the host's address; it works once, until ${until}:\n  ${path}\n`);
  return 0;
}

// `bevelbook people`: who may sign in, invitations made at the host's machine, and a way back in for a lead
// who has lost the password.
import type { Role } from "../../core/schemas/host.ts";
import { type Command, CallError } from "./call.ts";
import { atTheTerminal, withShelf } from "./open-database.ts";

const roles: readonly Role[] = ["lead", "technician", "viewer"];

export const peopleCommand: Command = {
  usage: "[list | invite lead|technician|viewer | reset NAME] [--json]",
  says: "Lists the people of a host that serves a network; invites one; or makes an address at which NAME chooses a new password. The host may run.",
  options: { json: { type: "boolean" } },
  run: async ([word = "list", ...rest], { json }) => {
    const { invitationPath, invite, listPeople, nameKeyOf } = await import("../host/people/people.ts");
    const told = ({ token, ends }: { readonly token: string; readonly ends: number }): 0 => {
      const path = invitationPath(token);
      process.stdout.write(
        json === true
          ? `${JSON.stringify({ path, ends })}\n`
          : `Add this to the host's address; it works once, until ${new Date(ends).toISOString()}:\n  ${path}\n`,
      );
      return 0;
    };
    switch (word) {
      case "list":
        if (rest.length > 0) throw new CallError("bevelbook people list takes nothing more.");
        return withShelf(async (database) => {
          const { people, invitations } = await listPeople(database);
          if (json === true) process.stdout.write(`${JSON.stringify({ people, invitations }, null, 2)}\n`);
          else
            process.stdout.write(
              `${people.map((one) => `${one.role.padEnd(10)}  ${one.name}  (${one.sessions.length} ${one.sessions.length === 1 ? "session" : "sessions"})\n`).join("") || "Nobody is known yet.\n"}${invitations.length === 0 ? "" : `Open invitations: ${invitations.length}\n`}`,
            );
          return 0;
        });
      case "invite": {
        const role = roles.find((one) => one === rest[0]);
        if (role === undefined || rest.length !== 1)
          throw new CallError("Say whom: bevelbook people invite lead, technician or viewer.");
        return withShelf(async (database) => told(await invite(database, atTheTerminal, role)));
      }
      case "reset": {
        const name = rest.join(" ");
        if (name === "") throw new CallError("Say whose password: bevelbook people reset NAME.");
        return withShelf(async (database) => {
          const found = (await listPeople(database)).people.find(
            (one) => nameKeyOf(one.name) === nameKeyOf(name),
          );
          if (found === undefined) throw new CallError(`Nobody is known by the name ${name}.`);
          return told(await invite(database, atTheTerminal, found.role, found));
        });
      }
      default:
        throw new CallError(`bevelbook people takes list, invite or reset, not “${word}”.`);
    }
  },
};

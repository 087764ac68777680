// Opens the shop's database for a command, where the settings say that it is; a host that runs on it may go
// on.
import type { Database } from "../host/database/database.ts";
import { CallError, type Io } from "./call.ts";

/**
 * `act` gets the database and the folder of the data, and gives the exit code of the command. One that only
 * reads says so: it works on a disk that is full.
 */
export async function withDatabase(
  io: Io,
  act: (database: Database, data: string) => Promise<0 | 1>,
  options: { readonly reading?: boolean } = {},
): Promise<0 | 1> {
  // Loaded here, so that the commands that only read a book do not wait for a database.
  const [{ openDatabase }, { troubleOf }, { databaseSettings }] = await Promise.all([
    import("../host/database/database.ts"),
    import("../host/database/database-errors.ts"),
    import("../host/run.ts"),
  ]);
  const settings = databaseSettings(io.env);
  if ("wrong" in settings) throw new CallError(settings.wrong);
  try {
    const database = await openDatabase(settings, options);
    try {
      return await act(database, settings.data);
    } finally {
      await database.close();
    }
  } catch (cause) {
    const trouble = troubleOf(cause);
    throw trouble === undefined ? cause : new CallError(trouble.message);
  }
}

/** The name of whoever gives a command at this machine, for the log. */
export const atTheTerminal = "the terminal";

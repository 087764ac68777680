// Opens the shop's database for a command, where the settings say that it is; a host that runs on it may go
// on.
import type { Database } from "../host/database/database.ts";
import { CallError, type Io } from "./call.ts";

/** `act` gets the database and the folder of the data, and gives the exit code of the command. */
export async function withDatabase(
  io: Io,
  act: (database: Database, data: string) => Promise<0 | 1>,
): Promise<0 | 1> {
  // Loaded here, so that the commands that only read a book do not wait for a database.
  const [{ openDatabase }, { Trouble }, { databaseSettings }] = await Promise.all([
    import("../host/database/database.ts"),
    import("../host/trouble.ts"),
    import("../host/run.ts"),
  ]);
  const settings = databaseSettings(io.env);
  if ("wrong" in settings) throw new CallError(settings.wrong);
  try {
    const database = await openDatabase(settings);
    try {
      return await act(database, settings.data);
    } finally {
      await database.close();
    }
  } catch (cause) {
    if (cause instanceof Trouble) throw new CallError(cause.message);
    throw cause;
  }
}

/** The name of whoever gives a command at this machine, for the log. */
export const atTheTerminal = "the terminal";

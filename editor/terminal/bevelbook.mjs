#!/usr/bin/env node
// The `bevelbook` command: runs main.ts from its bundle.
import { startProgram } from "../build/start-program.mjs";

// A reader that has seen enough (`| head`) closes the pipe; that is no fault.
process.stdout.on("error", (error) => {
  if (error.code === "EPIPE") process.exit(0);
  else throw error;
});

const { main } = await startProgram("bevelbook");
process.exitCode = await main(process.argv.slice(2));

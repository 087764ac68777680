#!/usr/bin/env node
// Starts the terminal program straight from its TypeScript source, so that it runs in a checkout without a
// build.
import { register } from "tsx/esm/api";

// A reader that has seen enough (`| head`) closes the pipe; that is no fault.
process.stdout.on("error", (error) => {
  if (error.code === "EPIPE") process.exit(0);
  else throw error;
});

register();
const { main } = await import("./main.ts");
process.exitCode = await main(process.argv.slice(2));

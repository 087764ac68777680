// What the build adds for the technician's page without a network: the list of its files and their print, put
// into the worker that keeps them, and what a tablet needs to set the page on its start screen.
import { createHash } from "node:crypto";

/** A built file by its path below the folder of the pages. */
export interface BuiltFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** The worker's file, at the root of the site so that the page lies in its reach. */
export const offlineWorker = "job-offline.js";

/**
 * The worker's script with the list of `files` in the place held for it. Throws where there is no such place:
 * a build without it must not pass.
 */
export function withFiles(script: string, files: readonly BuiltFile[]): string {
  const sorted = [...files].sort((a, b) => (a.name < b.name ? -1 : 1));
  const hash = createHash("sha256");
  for (const { name, content } of sorted) hash.update(`${name}\n`).update(content).update("\n");
  const listed = JSON.stringify({
    print: hash.digest("hex").slice(0, 16),
    files: sorted.map((file) => file.name),
  });
  const place = /(["'`])%built%\1/;
  if (!place.test(script)) throw new Error("The offline worker has no place for the list of files.");
  return script.replace(place, () => JSON.stringify(listed));
}

/** The page as a thing of its own on a tablet's start screen. */
export const webManifest = JSON.stringify({
  name: "Bevelbook job card",
  short_name: "Job card",
  description: "The questions of a job and its card, with a reason for every number.",
  id: "./job.html",
  start_url: "./job.html",
  scope: "./",
  display: "standalone",
  background_color: "#f5f3ec",
  theme_color: "#f5f3ec",
  icons: [
    { src: "./mark.svg", sizes: "any", type: "image/svg+xml" },
    { src: "./mark-192.png", sizes: "192x192", type: "image/png" },
    { src: "./mark-512.png", sizes: "512x512", type: "image/png" },
  ],
});

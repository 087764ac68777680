// Where the project is: the nearest folder above this file that has a package.json. This file runs from the
// sources and from a bundle in dist/.
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const project = projectAbove(dirname(fileURLToPath(import.meta.url)));

function projectAbove(folder: string): string {
  const above = dirname(folder);
  return existsSync(join(folder, "package.json")) || above === folder ? folder : projectAbove(above);
}

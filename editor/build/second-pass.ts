// A second, slower pass over the scripts of the technician's page, which makes them a good hundredth smaller.
// The bundler's own pass comes first. What may change how a program runs stays off.
import { minify } from "terser";
import type { Plugin } from "vite";

const options = {
  module: true,
  ecma: 2020,
  compress: { passes: 3 },
  mangle: { toplevel: true },
} as const;

export const secondPass = (): Plugin => ({
  name: "second-pass",
  apply: "build",
  async generateBundle(_options, bundle) {
    for (const file of Object.values(bundle)) {
      if (file.type !== "chunk") continue;
      const { code } = await minify(file.code, options);
      if (code === undefined) throw new Error(`${file.fileName} came out empty.`);
      if (code.length < file.code.length) file.code = code;
    }
  },
});

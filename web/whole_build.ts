import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { build, type Plugin, type Rolldown } from "vite";

const WORKER = "src/worker/sw.ts";
/** Stands in the first page for the name of its build. */
const UNNAMED = "the-name-of-this-build";

const sha256 = (bytes: string | Uint8Array): string =>
  createHash("sha256").update(bytes).digest("hex");

/**
 * Names the build by what is in it, and adds the service worker with the list of all its files in its first line.
 * It is made with everything else, so that a build that fails leaves none behind.
 */
export function wholeBuild(): Plugin {
  let publicFolder = "";
  return {
    name: "whole-build",
    apply: "build",
    configResolved(config) {
      publicFolder = config.publicDir;
    },
    generateBundle: {
      order: "post",
      async handler(_, bundle) {
        const files = { ...hashesOf(bundle), ...hashesIn(publicFolder) };
        const sorted = Object.fromEntries(Object.entries(files).sort());
        const code = await workerCode();
        const name = sha256(JSON.stringify(sorted) + code).slice(0, 16);
        const page = bundle["index.html"];
        if (page?.type !== "asset" || !String(page.source).includes(UNNAMED))
          throw new Error("The first page has no place for the name of its build.");
        page.source = String(page.source).replace(UNNAMED, name);
        sorted["/index.html"] = sha256(page.source);
        const list = JSON.stringify({ name, files: sorted });
        this.emitFile({
          type: "asset",
          fileName: "sw.js",
          source: `self.BUILD=${list};\n${code}`,
        });
      },
    },
  };
}

function hashesOf(bundle: Rolldown.OutputBundle): Record<string, string> {
  const entries = Object.values(bundle).map((made) => [
    `/${made.fileName}`,
    sha256(made.type === "asset" ? made.source : made.code),
  ]);
  return Object.fromEntries(entries);
}

function hashesIn(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  return Object.fromEntries(
    names.map((name) => [`/${relative(folder, name)}`, sha256(readFileSync(name))]),
  );
}

/** The worker as one file without imports, which every browser takes. */
async function workerCode(): Promise<string> {
  const made = await build({
    configFile: false,
    logLevel: "warn",
    publicDir: false,
    build: {
      write: false,
      target: "es2022",
      lib: { entry: WORKER, formats: ["iife"], name: "worker" },
    },
  });
  const [output] = [made].flat();
  if (!output || !("output" in output)) throw new Error("The service worker was not built.");
  return output.output[0].code;
}

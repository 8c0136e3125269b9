import { defineConfig } from "vite";
import { wholeBuild } from "./whole_build.ts";

// The server sends a content security policy without inline code, so nothing is inlined.
export default defineConfig({
  build: {
    outDir: "../pantry/http/client",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    // the list of what each screen brings would be longer than what it saves on a house's own network
    modulePreload: { polyfill: false, resolveDependencies: () => [] },
  },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [wholeBuild()],
  server: {
    fs: { allow: [".."] },
    proxy: {
      "/api": "http://127.0.0.1:8710",
      "/openapi.json": "http://127.0.0.1:8710",
      "/menu-sheet": "http://127.0.0.1:8710",
      "/my-sheet": "http://127.0.0.1:8710",
    },
  },
});

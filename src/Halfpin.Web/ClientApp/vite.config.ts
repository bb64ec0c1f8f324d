import { defineConfig } from "vite";

// One module of a fixed name: the pages of the server refer to it, and a hashed name would change under them.
export default defineConfig({
  base: "/gen/",
  build: {
    outDir: "../wwwroot/gen",
    emptyOutDir: true,
    target: "es2022",
    chunkSizeWarningLimit: 900,
    rolldownOptions: {
      input: "src/main.ts",
      preserveEntrySignatures: "exports-only",
      output: { entryFileNames: "workbench.js", chunkFileNames: "[name].js", assetFileNames: "[name][extname]", codeSplitting: false },
    },
  },
});

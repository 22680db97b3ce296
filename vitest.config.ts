import { defineConfig } from "vitest/config";

export default defineConfig({
  plugins: [
    {
      // plans are text to the program, as the build has them
      name: "plan-text",
      transform: (code, id) =>
        id.endsWith(".yaml") ? { code: `export default ${JSON.stringify(code)}`, map: null } : null,
    },
  ],
  resolve: { conditions: ["source"] },
  ssr: { resolve: { conditions: ["source"] } },
  test: {
    include: ["packages/*/src/**/*.test.{ts,tsx}", "scripts/**/*.test.ts"],
    testTimeout: 60_000,
    pool: "threads",
    maxWorkers: 2,
    reporters: ["default", "./scripts/count-reporter.ts"],
  },
});

/** `npm test`: installs what it needs, then runs every test; `--soak` runs the long campaigns whole. */
import { browser, built, nodeVersion, packages } from "./ensure.mjs";
import { tool } from "./run.mjs";

nodeVersion();
packages();
await built();
const chrome = browser();
if (!chrome && process.env.CI) process.exit(1);
const rest = process.argv.slice(2).filter((a) => a !== "--soak");
const soak = process.argv.includes("--soak");
process.exit(
  tool("vitest/vitest.mjs", ["run", ...rest], {
    env: {
      ...process.env,
      NO_COLOR: "1",
      ...(chrome ? { LENTIC_CHROME: chrome } : {}),
      ...(soak ? { LENTIC_SOAK: "1" } : {}),
    },
  }),
);

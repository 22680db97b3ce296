/** `npm start`: installs, builds, serves the demo tank on this machine alone. Arguments go on to `lentic serve`. */
import { built, nodeVersion, packages } from "./ensure.mjs";
import { run } from "./run.mjs";

nodeVersion();
packages();
await built();
process.exit(run(process.execPath, ["packages/cli/dist/lentic.js", "serve", "--demo", ...process.argv.slice(2)]));

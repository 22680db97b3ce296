import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

/** The repository's root, whatever folder the command was given in. */
export const root = fileURLToPath(new URL("..", import.meta.url));

/** Runs a command in the root with inherited output; returns its exit code. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: root, stdio: "inherit", ...options });
  if (result.error) throw result.error;
  return result.status ?? 1;
}

/** Runs a tool of node_modules/.bin with this very Node. */
export function tool(path, args, options = {}) {
  return run(process.execPath, [`node_modules/${path}`, ...args], options);
}

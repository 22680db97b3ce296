/** Brings what a fresh machine lacks: packages, builds, a browser for tests. Each step is skipped when up to date. */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./run.mjs";

const stamps = join(root, "node_modules/.lentic");

function stamp(name) {
  const file = join(stamps, name);
  return existsSync(file) ? readFileSync(file, "utf8") : "";
}

function setStamp(name, value) {
  mkdirSync(stamps, { recursive: true });
  writeFileSync(join(stamps, name), value);
}

export function nodeVersion() {
  const [major, minor] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Lentic needs Node 20.19 or newer; this is ${process.versions.node}. Get one from nodejs.org.`);
    process.exit(1);
  }
}

export function packages() {
  const want = createHash("sha256")
    .update(readFileSync(join(root, "package-lock.json")))
    .update(process.version)
    .digest("hex");
  if (existsSync(join(root, "node_modules")) && stamp("lock") === want) return;
  console.error("Installing packages (once; a compiler may be needed for the database driver) ...");
  const npm = process.env.npm_execpath;
  const code = npm
    ? run(process.execPath, [npm, "ci", "--no-audit", "--no-fund"], { stdio: ["ignore", "ignore", "inherit"] })
    : run("npm", ["ci", "--no-audit", "--no-fund"], {
        stdio: ["ignore", "ignore", "inherit"],
        shell: process.platform === "win32",
      });
  if (code !== 0) process.exit(code);
  setStamp("lock", want);
}

function newest(folder, hash) {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.name === "node_modules" || entry.name === "dist" || entry.name.includes(".test.")) continue;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) newest(path, hash);
    else {
      const { mtimeMs, size } = statSync(path);
      hash.update(`${path.slice(root.length)} ${mtimeMs} ${size}\n`);
    }
  }
}

/** Builds the command, the server, the library and the web app, unless nothing has changed since the last build. */
export async function built() {
  const hash = createHash("sha256");
  for (const folder of ["packages", "examples", "scripts"]) newest(join(root, folder), hash);
  const want = hash.digest("hex");
  const outputs = ["packages/cli/dist/lentic.js", "packages/web/dist/index.html"];
  if (stamp("build") === want && outputs.every((f) => existsSync(join(root, f)))) return;
  console.error("Building ...");
  const { build } = await import("./build.mjs");
  await build();
  setStamp("build", want);
}

const browsers = [
  process.env.LENTIC_CHROME,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** Path of a Chrome or Chromium; on Debian as root it is installed; elsewhere one line says how to get one. */
export function browser() {
  const found = () => browsers.find((p) => p && existsSync(p));
  if (found()) return found();
  if (process.platform === "linux" && existsSync("/etc/debian_version") && process.getuid?.() === 0) {
    console.error("Installing Chromium for the browser tests (Debian package) ...");
    run("apt-get", ["update"], { stdio: "ignore" });
    run("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], {
      stdio: ["ignore", "ignore", "inherit"],
    });
    if (found()) return found();
  }
  console.error("The browser tests need Chrome or Chromium: install one, or set LENTIC_CHROME to its path.");
  return undefined;
}

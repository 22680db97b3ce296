import { spawn } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Running, ServeOptions } from "@lentic/server";
import type { Store } from "@lentic/store";
import { examples } from "../examples.ts";
import { exit, InputError } from "../fault.ts";
import { toJson } from "../paper.ts";

export interface ServeCommandOptions {
  readonly port?: string;
  readonly host: string;
  readonly data?: string;
  readonly demo?: boolean;
  readonly open?: boolean;
  readonly json?: boolean;
}

const usualPort = 4710;
const portsTried = 20;

/** Where tanks are kept when nobody says otherwise. */
export function dataFolder(env: NodeJS.ProcessEnv = process.env, platform: NodeJS.Platform = process.platform): string {
  if (env.LENTIC_DATA) return env.LENTIC_DATA;
  if (platform === "win32") return join(env.LOCALAPPDATA || join(homedir(), "AppData", "Local"), "lentic");
  if (platform === "darwin") return join(homedir(), "Library", "Application Support", "lentic");
  return join(env.XDG_DATA_HOME || join(homedir(), ".local", "share"), "lentic");
}

/** A database's address as it may be shown: without the password. */
export const shownAddress = (address: string): string => address.replace(/^(\w+:\/\/[^:@/]*):[^@/]*@/, "$1:...@");

function webRoot(): string | null {
  const here = dirname(fileURLToPath(import.meta.url));
  return [join(here, "../../web/dist"), join(here, "web")].find((f) => existsSync(join(f, "index.html"))) ?? null;
}

function show(url: string): void {
  const [command, args] =
    process.platform === "darwin"
      ? (["open", [url]] as const)
      : process.platform === "win32"
        ? (["cmd", ["/c", "start", "", url]] as const)
        : (["xdg-open", [url]] as const);
  spawn(command, args, { stdio: "ignore", detached: true })
    .on("error", () => process.stderr.write("No browser could be opened; go to the address yourself.\n"))
    .unref();
}

function portOf(text: string | undefined): number | null {
  if (text === undefined) return null;
  const port = /^\d{1,5}$/.test(text) ? Number(text) : Number.NaN;
  if (!(port <= 65535)) throw new InputError(`--port ${text}: allowed: 0 to 65535, 0 for any that is free`);
  return port;
}

async function openedStore(address: string): Promise<Store> {
  const { openStore, StoreError } = await import("@lentic/store");
  try {
    if (!/^postgres/.test(address)) mkdirSync(dirname(address), { recursive: true });
    return await openStore(address);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (!(error instanceof StoreError || code)) throw error;
    throw new InputError(`tanks cannot be kept in ${shownAddress(address)}: ${message}`);
  }
}

/** The demo tank, made once in a data folder; null when its owner has taken it out. */
async function demoTank(store: Store): Promise<string | null> {
  const { text } = examples.find((e) => e.id === "quarry-bank")!;
  const made = await store.create({ text, key: "demo" });
  return made.ok && (await store.tank(made.tank.id)) ? made.tank.id : null;
}

/** Serves at the port asked for, or at the first that is free from the usual one on. */
async function served(options: Omit<ServeOptions, "port">, asked: number | null): Promise<Running> {
  const { serve, ServeError } = await import("@lentic/server");
  for (let port = asked ?? usualPort; ; port += 1) {
    try {
      return await serve({ ...options, port });
    } catch (error) {
      if (!(error instanceof ServeError)) throw error;
      if (error.reason !== "in-use" || asked !== null || port >= usualPort + portsTried) {
        throw new InputError(error.message);
      }
      process.stderr.write(`${error.message}; trying ${port + 1}\n`);
    }
  }
}

/** Until a signal asks to stop; a second one does not wait for what is open. */
function untilStopped(close: () => Promise<void>): Promise<void> {
  return new Promise((resolve, reject) => {
    let stopping = false;
    const stop = (): void => {
      if (stopping) process.exit(exit.ourFault);
      stopping = true;
      close().then(resolve, reject);
    };
    process.on("SIGINT", stop);
    process.on("SIGTERM", stop);
  });
}

/** Serves the web app until told to stop. */
export async function serveCommand(options: ServeCommandOptions): Promise<number> {
  const asked = portOf(options.port);
  const address = process.env.LENTIC_DATABASE || join(options.data ?? dataFolder(), "lentic.sqlite");
  const store = await openedStore(address);
  const root = webRoot();
  const token = process.env.LENTIC_TOKEN;
  const names = (process.env.LENTIC_NAMES ?? "")
    .split(",")
    .map((n) => n.trim().toLowerCase())
    .filter(Boolean);
  const onError = (error: Error): void => {
    process.stderr.write(`A fault of ours: ${process.env.LENTIC_DEBUG ? error.stack : error.message}\n`);
  };
  let running: Running;
  let tank: string | null;
  try {
    tank = options.demo ? await demoTank(store) : null;
    const common = { host: options.host, store, examples, webRoot: root, version: __VERSION__, names, onError };
    running = await served({ ...common, ...(token ? { token } : {}) }, asked);
  } catch (error) {
    await store.close();
    throw error;
  }
  // from here on a signal closes cleanly
  const stopped = untilStopped(async () => {
    await running.close();
    await store.close();
  });
  const page = `${running.url}${tank === null ? "/" : `/tank/${tank}/today`}`;
  if (options.json) process.stdout.write(`${toJson({ url: running.url, page, data: shownAddress(address) })}\n`);
  else process.stdout.write(`Lentic is at ${page}\n`);
  if (root === null) process.stderr.write("The web app has not been built: only its interface under /api answers.\n");
  process.stderr.write(`Tanks are kept in ${shownAddress(address)}. Ctrl-C stops.\n`);
  if (options.open) show(page);
  await stopped;
  return exit.fine;
}

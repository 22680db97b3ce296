import { spawn } from "node:child_process";
import { existsSync, mkdirSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { examples } from "../examples.ts";
import { InputError } from "../fault.ts";

export interface ServeCommandOptions {
  readonly port?: string;
  readonly host: string;
  readonly data?: string;
  readonly demo?: boolean;
  readonly open?: boolean;
}

const usualPort = 4710;
const portsTried = 20;

/** Where tanks are kept when nobody says otherwise. */
export function dataFolder(env: NodeJS.ProcessEnv = process.env, platform: NodeJS.Platform = process.platform): string {
  if (env.LENTIC_DATA) return env.LENTIC_DATA;
  if (platform === "win32") return join(env.LOCALAPPDATA ?? join(homedir(), "AppData", "Local"), "lentic");
  if (platform === "darwin") return join(homedir(), "Library", "Application Support", "lentic");
  return join(env.XDG_DATA_HOME || join(homedir(), ".local", "share"), "lentic");
}

function webRoot(): string | null {
  const here = dirname(fileURLToPath(import.meta.url));
  return [join(here, "../../web/dist"), join(here, "web")].find((f) => existsSync(join(f, "index.html"))) ?? null;
}

function show(url: string): void {
  const [command, args] =
    process.platform === "darwin"
      ? ["open", [url]]
      : process.platform === "win32"
        ? ["cmd", ["/c", "start", "", url]]
        : ["xdg-open", [url]];
  spawn(command as string, args as string[], { stdio: "ignore", detached: true })
    .on("error", () => undefined)
    .unref();
}

/** Serves the web app until told to stop. */
export async function serveCommand(options: ServeCommandOptions): Promise<number> {
  const asked = options.port === undefined ? null : Number(options.port);
  if (asked !== null && !(Number.isInteger(asked) && asked >= 0 && asked <= 65535)) {
    throw new InputError(`--port ${options.port} is no port; allowed: 0 to 65535, 0 for any that is free`);
  }
  const { openStore, StoreError } = await import("@lentic/store");
  const { serve, ServeError } = await import("@lentic/server");
  const url = process.env.LENTIC_DATABASE ?? join(options.data ?? dataFolder(), "lentic.sqlite");
  let store: Awaited<ReturnType<typeof openStore>>;
  try {
    if (!/^postgres/.test(url)) mkdirSync(dirname(url), { recursive: true });
    store = await openStore(url);
  } catch (error) {
    if (error instanceof StoreError || (error as NodeJS.ErrnoException).code)
      throw new InputError((error as Error).message);
    throw error;
  }
  let page = "/";
  if (options.demo) {
    const demo = examples[0]!;
    const made = await store.create({ text: demo.text, key: "demo" });
    if (made.ok) page = `/tank/${made.tank.id}/today`;
  }
  const token = process.env.LENTIC_TOKEN;
  const common = {
    host: options.host,
    store,
    examples,
    webRoot: webRoot(),
    version: __VERSION__,
    ...(token ? { token } : {}),
    names: (process.env.LENTIC_NAMES ?? "")
      .split(",")
      .map((n) => n.trim().toLowerCase())
      .filter(Boolean),
    onError: (error: Error) =>
      process.stderr.write(`a fault of ours: ${process.env.LENTIC_DEBUG ? error.stack : error.message}\n`),
  };
  let running: Awaited<ReturnType<typeof serve>> | null = null;
  for (let port = asked ?? usualPort; running === null; port += 1) {
    try {
      running = await serve({ ...common, port });
    } catch (error) {
      if (!(error instanceof ServeError)) throw error;
      if (error.reason !== "in-use" || asked !== null || port >= usualPort + portsTried) {
        await store.close();
        throw new InputError(error.message);
      }
      process.stderr.write(`${error.message}; trying ${port + 1}\n`);
    }
  }
  process.stdout.write(`Lentic is at ${running.url}${page}\n`);
  process.stderr.write(`Tanks are kept in ${url}. Ctrl-C stops.\n`);
  if (options.open) show(`${running.url}${page}`);
  const server = running;
  return new Promise((resolve) => {
    let stopping = false;
    const stop = async (): Promise<void> => {
      if (stopping) return;
      stopping = true;
      await server.close();
      await store.close();
      resolve(0);
    };
    process.on("SIGINT", () => void stop());
    process.on("SIGTERM", () => void stop());
  });
}

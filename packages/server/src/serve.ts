import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { createAdaptorServer } from "@hono/node-server";
import { type AppOptions, createApp } from "./app.ts";

export interface ServeOptions extends Omit<AppOptions, "hosts"> {
  readonly host: string;
  /** 0 = any free port. */
  readonly port: number;
  /** Further names under which the server may be asked, without port, when it serves beyond this machine. */
  readonly names?: readonly string[];
}

export interface Running {
  readonly port: number;
  readonly url: string;
  close(): Promise<void>;
}

/** The server cannot start: says why in plain words. */
export class ServeError extends Error {
  readonly reason: "in-use" | "beyond-loopback" | "address";
  constructor(reason: ServeError["reason"], message: string) {
    super(message);
    this.name = "ServeError";
    this.reason = reason;
  }
}

const loopback = /^(127(\.\d{1,3}){3}|::1|localhost)$/;

/**
 * Listens until closed.
 * @throws ServeError when the address is taken, cannot be had, or lies beyond this machine without a token
 */
export async function serve(options: ServeOptions): Promise<Running> {
  const { host, port } = options;
  if (!loopback.test(host) && options.token === undefined) {
    throw new ServeError(
      "beyond-loopback",
      `serving at ${host} would let other machines in; set LENTIC_TOKEN to a long secret first, or keep to 127.0.0.1`,
    );
  }
  const hosts = new Set<string>();
  const app = createApp({ ...options, hosts });
  const server = createAdaptorServer({
    fetch: app.fetch,
    createServer,
    serverOptions: {
      headersTimeout: 10_000,
      requestTimeout: 30_000,
      keepAliveTimeout: 5_000,
      maxHeaderSize: 16 * 1024,
    },
  });
  await new Promise<void>((resolve, reject) => {
    server.once("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EADDRINUSE") reject(new ServeError("in-use", `port ${port} is taken by another program`));
      else reject(new ServeError("address", `cannot listen at ${host}:${port}: ${error.message}`));
    });
    server.listen(port, host, resolve);
  });
  const actual = (server.address() as AddressInfo).port;
  for (const name of [
    "127.0.0.1",
    "localhost",
    "[::1]",
    host.includes(":") ? `[${host}]` : host,
    ...(options.names ?? []),
  ]) {
    hosts.add(`${name}:${actual}`);
    if (actual === 80) hosts.add(name);
  }
  return {
    port: actual,
    url: `http://${host.includes(":") ? `[${host}]` : host}:${actual}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        // idle connections would hold the door open
        if ("closeIdleConnections" in server) server.closeIdleConnections();
        setTimeout(() => "closeAllConnections" in server && server.closeAllConnections(), 2000).unref();
      }),
  };
}

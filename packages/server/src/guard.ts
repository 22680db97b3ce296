import { createHash, timingSafeEqual } from "node:crypto";
import type { Context, MiddlewareHandler } from "hono";
import { problem } from "./problem.ts";

export interface GuardOptions {
  /** Host headers that are ours, in lower case with port: "127.0.0.1:4710"; read at every request. */
  readonly hosts: ReadonlySet<string>;
  /** When set, every request must show it. */
  readonly token?: string | undefined;
}

/** Largest body taken, bytes. */
export const largestBody = 1024 * 1024 + 64 * 1024;

const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

const headers: Readonly<Record<string, string>> = {
  "content-security-policy": policy,
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "permissions-policy": "camera=(), microphone=(), geolocation=(), payment=(), usb=()",
  "x-frame-options": "DENY",
};

const cookieName = "lentic_session";
const digest = (text: string): Buffer => createHash("sha256").update(text).digest();
/** What the browser keeps instead of the token itself. */
const sessionOf = (token: string): string => digest(`session ${token}`).toString("hex");
const same = (a: string, b: string): boolean => timingSafeEqual(digest(a), digest(b));

function shown(c: Context, token: string): boolean {
  const bearer = /^Bearer (.+)$/.exec(c.req.header("authorization") ?? "")?.[1];
  if (bearer !== undefined && same(bearer, token)) return true;
  const cookie = new RegExp(`(?:^|;\\s*)${cookieName}=([0-9a-f]+)`).exec(c.req.header("cookie") ?? "")?.[1];
  return cookie !== undefined && same(cookie, sessionOf(token));
}

/** Refuses whatever does not come from our own page or a program on purpose; sets the headers that keep a page to itself. */
export function guard({ hosts, token }: GuardOptions): MiddlewareHandler {
  return async (c, next) => {
    for (const [name, value] of Object.entries(headers)) c.header(name, value);
    const host = (c.req.header("host") ?? "").toLowerCase();
    // a name that is not ours means that a page elsewhere had its own name pointed here
    if (!hosts.has(host)) return problem(c, { status: 421, title: "This is not the host that was asked for" });
    const origin = c.req.header("origin");
    const site = c.req.header("sec-fetch-site");
    if (origin !== undefined) {
      let from = "";
      try {
        from = new URL(origin).host.toLowerCase();
      } catch {
        from = "";
      }
      if (from !== host) return problem(c, { status: 403, title: "Requests from other sites are refused" });
    }
    const navigating = c.req.method === "GET" && c.req.header("sec-fetch-mode") === "navigate";
    if ((site === "cross-site" || site === "same-site") && !navigating) {
      return problem(c, { status: 403, title: "Requests from other sites are refused" });
    }
    if (token !== undefined) {
      const asked = new URL(c.req.url);
      if (asked.pathname === "/login") {
        const given = asked.searchParams.get("token") ?? "";
        if (!same(given, token)) return problem(c, { status: 401, title: "That is not the token" });
        c.header("set-cookie", `${cookieName}=${sessionOf(token)}; HttpOnly; SameSite=Strict; Path=/; Max-Age=2592000`);
        return c.redirect("/", 302);
      }
      if (!shown(c, token)) {
        return problem(c, {
          status: 401,
          title: "A token is needed",
          detail: "Open /login?token=... once, or send it as a bearer token.",
        });
      }
    }
    if (!["GET", "HEAD", "OPTIONS"].includes(c.req.method)) {
      const bodyless =
        c.req.method === "DELETE" &&
        (c.req.header("content-length") ?? "0") === "0" &&
        !c.req.header("transfer-encoding");
      const type = (c.req.header("content-type") ?? "").split(";")[0]!.trim().toLowerCase();
      if (!bodyless && type !== "application/json") {
        return problem(c, { status: 415, title: "Bodies must be application/json" });
      }
    }
    return next();
  };
}

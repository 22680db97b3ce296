import type { Context } from "hono";

export interface Problem {
  readonly status: 400 | 401 | 403 | 404 | 405 | 409 | 413 | 415 | 421 | 422 | 429 | 500;
  readonly title: string;
  readonly detail?: string;
  readonly [more: string]: unknown;
}

/** An error as RFC 9457 has it: a sentence for people, fields for programs, never a stack trace. */
export function problem(c: Context, { status, ...rest }: Problem): Response {
  return c.body(JSON.stringify({ type: "about:blank", status, ...rest }), status, {
    "content-type": "application/problem+json; charset=utf-8",
    "cache-control": "no-store",
  });
}

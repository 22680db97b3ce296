import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { InputError } from "./fault.ts";

const largest = 1024 * 1024;
const standardInput = 0;

/** What stands for a file in messages. */
export const fileWord = (path: string): string => (path === "-" ? "standard input" : path);

/** Why a file cannot be had, in words. */
function fileTrouble(path: string, error: unknown): InputError {
  const { code, message } = error as NodeJS.ErrnoException;
  const words: Readonly<Record<string, string>> = {
    ENOENT: "is not there",
    EACCES: "may not be read",
    EISDIR: "is a folder; a file is needed",
    ENOTDIR: "is not there: a part of its path is a file",
    ENAMETOOLONG: "is too long a name",
    ELOOP: "leads in a circle",
    EMFILE: "cannot be opened: too many files are open",
  };
  return new InputError(`${fileWord(path)} ${words[code ?? ""] ?? `cannot be read: ${message}`}`);
}

/** A pipe that has nothing yet says so instead of waiting, when its other end set it up that way. */
function readSome(file: number, into: Buffer): number {
  for (;;) {
    try {
      return readSync(file, into, 0, into.length, null);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === "EOF") return 0;
      if (code !== "EAGAIN") throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}

/** Reads no more than is allowed, whatever the file says of its size: some never end. */
function readBytes(path: string): Buffer {
  const file = path === "-" ? standardInput : openSync(path, "r");
  try {
    if (fstatSync(file).isDirectory()) throw new InputError(`${fileWord(path)} is a folder; a file is needed`);
    const parts: Buffer[] = [];
    let size = 0;
    for (;;) {
      const part = Buffer.alloc(64 * 1024);
      const got = readSome(file, part);
      if (got === 0) return Buffer.concat(parts, size);
      parts.push(part.subarray(0, got));
      size += got;
      if (size > largest) throw new InputError(`${fileWord(path)} has more than 1 MiB, the most that is read`);
    }
  } finally {
    if (file !== standardInput) closeSync(file);
  }
}

/** Bytes as text. @throws InputError when they are none */
function asText(path: string, bytes: Uint8Array): string {
  if (bytes.includes(0)) throw new InputError(`${fileWord(path)} is not a text file`);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new InputError(`${fileWord(path)} is not text in UTF-8`);
  }
}

/**
 * The text of a file, or of standard input for "-".
 * @throws InputError in words when it cannot be read, is no text or is over 1 MiB
 */
export function readText(path: string): string {
  let bytes: Buffer;
  try {
    bytes = readBytes(path);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw fileTrouble(path, error);
  }
  return asText(path, bytes);
}

/** Milliseconds in which a program that pipes something in has begun to. */
const patience = 2000;

/**
 * Text that another program or a file gives on standard input without being asked for; null on a terminal, and when
 * nothing comes: an open pipe that stays silent must not hold up a script.
 */
export async function offeredText(): Promise<string | null> {
  if (process.stdin.isTTY) return null;
  let kind: ReturnType<typeof fstatSync>;
  try {
    kind = fstatSync(standardInput);
  } catch {
    return null;
  }
  if (kind.isFile()) return readText("-");
  if (!(kind.isFIFO() || kind.isSocket())) return null;
  const parts: Buffer[] = [];
  let size = 0;
  const silent = setTimeout(() => process.stdin.destroy(), patience);
  try {
    for await (const part of process.stdin as AsyncIterable<Buffer>) {
      clearTimeout(silent);
      size += part.length;
      if (size > largest) throw new InputError("standard input has more than 1 MiB, the most that is read");
      parts.push(part);
    }
  } catch (error) {
    // cut off by ourselves: nothing came
    if (error instanceof InputError || size > 0) throw error;
    return null;
  } finally {
    clearTimeout(silent);
  }
  return size === 0 ? null : asText("-", Buffer.concat(parts));
}

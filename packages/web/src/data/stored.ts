/** Where storage is refused or full, values last as long as the page. */
const inPage = new Map<string, string>();

/** Text kept in this browser; null when there is none. */
function loadText(key: string): string | null {
  const held = inPage.get(key);
  if (held !== undefined) return held;
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

/**
 * A value kept in this browser.
 * @param read makes the value of what was parsed; null for what is not of its kind
 */
export function load<T>(key: string, read: (value: unknown) => T | null): T | null {
  try {
    return read(JSON.parse(loadText(key) ?? "null"));
  } catch {
    return null;
  }
}

/** Keeps a value in this browser; null takes it away. */
export function store(key: string, value: unknown): void {
  const text = value === null ? null : JSON.stringify(value);
  inPage.delete(key);
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
  } catch {
    if (text !== null) inPage.set(key, text);
  }
}

/** A map of texts; what is not text in it falls away. */
export function texts(value: unknown): Readonly<Record<string, string>> | null {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return null;
  return Object.fromEntries(Object.entries(value).filter((e): e is [string, string] => typeof e[1] === "string"));
}

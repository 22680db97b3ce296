import { load, store, texts } from "../data/stored.ts";

/** What was typed but could not be kept yet, by field; it survives a reload. */
export type Drafts = Readonly<Record<string, string>>;

const key = (tank: string): string => `lentic.drafts.${tank}`;

export const draftsOf = (tank: string): Drafts => load(key(tank), texts) ?? {};

const save = (tank: string, drafts: Drafts): void => store(key(tank), Object.keys(drafts).length > 0 ? drafts : null);

export const draftOf = (tank: string, path: string): string | null => draftsOf(tank)[path] ?? null;

/** Drafts that were entered on this page and refused, as against those whose typing was broken off. */
const refused = new Set<string>();

/** Texts that were entered and could not be kept. */
export const refusedOf = (tank: string): Drafts =>
  Object.fromEntries(Object.entries(draftsOf(tank)).filter(([path]) => refused.has(`${tank} ${path}`)));

/** @param entered whether the text was entered and refused; else it is still being typed */
export function setDraft(tank: string, path: string, text: string | null, entered = false): void {
  if (entered) refused.add(`${tank} ${path}`);
  else refused.delete(`${tank} ${path}`);
  const { [path]: before, ...rest } = draftsOf(tank);
  if (text === null && before === undefined) return;
  save(tank, text === null ? rest : { ...rest, [path]: text });
}

/**
 * Drafts of list items follow their item when it moves; those of an item taken out go with it.
 * @param to the new position of the item that stood at `from`, null when it is gone
 */
export function moveDrafts(tank: string, group: string, to: (from: number) => number | null): void {
  const moved: Record<string, string> = {};
  for (const [path, text] of Object.entries(draftsOf(tank))) {
    const found = /^([^[]+)\[(\d+)\](.*)$/.exec(path);
    if (found?.[1] !== group) {
      moved[path] = text;
      continue;
    }
    const position = to(Number(found[2]));
    if (position !== null) moved[`${group}[${position}]${found[3]}`] = text;
  }
  save(tank, moved);
}

/** What was typed but could not be kept yet, by field; it survives a reload. */
type Drafts = Readonly<Record<string, string>>;

const key = (tank: string): string => `lentic.drafts.${tank}`;

function load(tank: string): Drafts {
  try {
    return JSON.parse(localStorage.getItem(key(tank)) ?? "{}") as Drafts;
  } catch {
    return {};
  }
}

export const draftOf = (tank: string, path: string): string | null => load(tank)[path] ?? null;

export function setDraft(tank: string, path: string, text: string | null): void {
  const { [path]: _, ...rest } = load(tank);
  const next = text === null ? rest : { ...rest, [path]: text };
  try {
    if (Object.keys(next).length === 0) localStorage.removeItem(key(tank));
    else localStorage.setItem(key(tank), JSON.stringify(next));
  } catch {
    // refused storage: the text stays in the field as long as the page is open
  }
}

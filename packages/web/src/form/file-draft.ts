import { load, store } from "../data/stored.ts";

/** A plan's text as edited but not kept yet; it survives a reload. */
export interface FileDraft {
  /** Revision of the plan that the edit began from. */
  readonly base: number;
  readonly text: string;
}

const key = (tank: string): string => `lentic.file.${tank}`;

export const loadFileDraft = (tank: string): FileDraft | null =>
  load(key(tank), (value) => {
    const read = value as Partial<FileDraft> | null;
    return typeof read?.text === "string" && typeof read.base === "number"
      ? { base: read.base, text: read.text }
      : null;
  });

export const saveFileDraft = (tank: string, draft: FileDraft | null): void => store(key(tank), draft);

/** A tank as it stands: the newest revision of its plan. Times are ISO text, so that both databases hold them alike. */
export interface TankTable {
  id: string;
  name: string;
  /** 1 for demonstration data. */
  invented: number;
  created_at: string;
  updated_at: string;
  revision: number;
  /** Key of the call that made it, so that a repeated call makes no second one. */
  key: string | null;
  removed_at: string | null;
}

/** Every state that a plan ever had; nothing is changed in place. */
export interface RevisionTable {
  tank_id: string;
  revision: number;
  name: string;
  /** Changes that led here, as JSON; null for a new or replaced text. */
  changes: string | null;
  text: string;
  at: string;
  key: string | null;
  /** Revision whose text this one brings back, for an undo or redo. */
  restores: number | null;
  /** What kind of step: kept, undo or redo. */
  kind: string;
}

export interface Database {
  tanks: TankTable;
  revisions: RevisionTable;
}

import { settingsOf, type TraceOptions } from "./options.ts";
import { prepare } from "./prepare.ts";
import type { LampField, TraceResult } from "./result.ts";
import type { Scene } from "./scene.ts";
import { traceLamp } from "./trace-lamp.ts";

export interface TraceProgress {
  /** Share of the most work that may be needed, 0 to 1; it jumps ahead where the wanted noise is met early. */
  readonly share: number;
  /** Lamps, and sides with daylight, that are done. */
  readonly lamps: number;
  /** Once everything is done. */
  readonly result: TraceResult | null;
}

/** A trace in hand: worked on piece by piece, dropped by not going on. */
export interface Trace {
  /** Does up to so many pieces of some milliseconds; their number leaves no trace in the result. */
  step(pieces?: number): TraceProgress;
}

/** @throws RangeError for a scene or an option that cannot be used, with what is wrong and what is allowed. */
export function createTrace(scene: Scene, options: TraceOptions = {}): Trace {
  const settings = settingsOf(options);
  const p = prepare(scene);
  const lights = p.lamps.length + p.daylight.length;
  const fields: LampField[] = [];
  let work = traceLamp(p, 0, settings);
  let share = 0;
  let result: TraceResult | null = null;
  return {
    step(pieces = 1) {
      for (let k = 0; k < pieces && !result; k++) {
        const next = work.next();
        if (!next.done) {
          share = next.value;
          continue;
        }
        fields.push(next.value);
        share = 0;
        if (fields.length < lights) work = traceLamp(p, fields.length, settings);
        else result = { cells: cellsOf(scene), bands: p.bands, lamps: fields };
      }
      return { share: (fields.length + share) / lights, lamps: fields.length, result };
    },
  };
}

/** The whole trace at once. @throws RangeError as `createTrace`. */
export function trace(scene: Scene, options: TraceOptions = {}): TraceResult {
  const task = createTrace(scene, options);
  for (;;) {
    const { result } = task.step(1000);
    if (result) return result;
  }
}

function cellsOf({ box, cells: { columns, rows } }: Scene): TraceResult["cells"] {
  return {
    columns,
    rows,
    x: Float64Array.from({ length: columns }, (_, i) => ((i + 0.5) * box.length) / columns),
    y: Float64Array.from({ length: rows }, (_, j) => ((j + 0.5) * box.width) / rows),
  };
}

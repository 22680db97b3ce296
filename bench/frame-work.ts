/** Work of a page's main thread, read from the browser's own trace and shared out to the frames between marks. */

/** One event of a trace; times in us. */
interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  /** CPU time of the thread. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** Work of one frame, ms. */
export interface FrameWork {
  /** Everything the page's main thread did. */
  readonly all: number;
  /** The same in CPU time of the thread; NaN where the browser does not tell it. */
  readonly cpu: number;
  /** Script, its garbage collected too; less the style and layout that it asked for. */
  readonly script: number;
  /** The same in CPU time of the thread: what it would take on a machine with nothing else to do. */
  readonly scriptCpu: number;
  readonly style: number;
  readonly layout: number;
  /** Recording of the picture for the raster threads; the raster itself is theirs. */
  readonly paint: number;
}

type Kind = "script" | "style" | "layout" | "paint";

const kinds: Readonly<Record<string, Kind>> = {
  FunctionCall: "script",
  EvaluateScript: "script",
  EventDispatch: "script",
  FireAnimationFrame: "script",
  TimerFire: "script",
  RunMicrotasks: "script",
  MinorGC: "script",
  MajorGC: "script",
  "v8.callFunction": "script",
  UpdateLayoutTree: "style",
  Layout: "layout",
  PrePaint: "paint",
  Paint: "paint",
  Layerize: "paint",
  Commit: "paint",
};

/** The mark that begins a frame, and the one after the last. */
export const frameMark = "bench-frame";

/** What each frame between marks came to. */
export function frameWork(trace: Buffer): readonly FrameWork[] {
  const { traceEvents } = JSON.parse(trace.toString()) as { traceEvents: readonly TraceEvent[] };
  const marks = traceEvents.filter((e) => e.name === frameMark).sort((a, b) => a.ts - b.ts);
  const first = marks[0];
  if (!first) return [];
  const mine = traceEvents
    .filter((e) => e.pid === first.pid && e.tid === first.tid && e.ph === "X" && e.dur !== undefined)
    .sort((a, b) => a.ts - b.ts || b.dur! - a.dur!);
  return marks.slice(0, -1).map((mark, i) => {
    const end = marks[i + 1]!.ts;
    const work = { all: 0, cpu: 0, script: 0, scriptCpu: 0, style: 0, layout: 0, paint: 0 };
    // each moment counts for the innermost kind of work around it
    const open: { until: number; kind: Kind | undefined }[] = [];
    let at = mark.ts;
    const spend = (until: number): void => {
      const kind = open.at(-1)?.kind;
      if (kind && until > at) work[kind] += (until - at) / 1000;
      at = Math.max(at, until);
    };
    for (const event of mine) {
      if (event.ts >= end) break;
      if (event.ts < mark.ts) continue;
      if (event.name.endsWith("RunTask")) {
        work.all += event.dur! / 1000;
        work.cpu += (event.tdur ?? Number.NaN) / 1000;
        continue;
      }
      while (open.length > 0 && open.at(-1)!.until <= event.ts) {
        spend(open.at(-1)!.until);
        open.pop();
      }
      spend(event.ts);
      const kind = kinds[event.name];
      const outer = open.at(-1)?.kind;
      const took = (event.tdur ?? event.dur!) / 1000;
      if (kind === "script" && outer !== "script") work.scriptCpu += took;
      if (kind !== "script" && kind !== undefined && outer === "script") work.scriptCpu -= took;
      open.push({ until: event.ts + event.dur!, kind: kinds[event.name] ?? open.at(-1)?.kind });
    }
    while (open.length > 0) spend(open.pop()!.until);
    return work;
  });
}

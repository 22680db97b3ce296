import {
  fullHoursOf,
  mostPoints,
  type Programme,
  programmeAllowed,
  programmeText,
  readProgramme,
} from "@lentic/core/plan";
import { type KeyboardEvent, type PointerEvent, useEffect, useId, useRef, useState } from "react";
import { useWidth } from "../data/use-width.ts";

const HEIGHT = 118;
/** Room beside the curve, px. */
const SIDE = 8;
const [TOP, BOTTOM] = [10, 94];

const toY = (strength: number): number => BOTTOM - (BOTTOM - TOP) * strength;

const clock = (hour: number): string => {
  const minutes = Math.round(hour * 60) % (24 * 60);
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};
const told = ([hour, strength]: Programme[number]): string => `${clock(hour)}, ${Math.round(100 * strength)} %`;

/** Straight pieces of a day, cut at midnight: [from, first, to, last] with hours 0 to 24. */
function pieces(programme: Programme): readonly (readonly [number, number, number, number])[] {
  return programme.flatMap(([from, first], i) => {
    const [to, last] = programme[i + 1] ?? [programme[0]![0] + 24, programme[0]![1]];
    if (to <= 24) return [[from, first, to, last] as const];
    if (from >= 24) return [[from - 24, first, to - 24, last] as const];
    const at = first + ((last - first) * (24 - from)) / (to - from);
    return [[from, first, 24, at] as const, [0, at, to - 24, last] as const];
  });
}

/** A point moved, kept between its neighbours, on 5 minutes and whole percents. */
function moved(programme: Programme, index: number, hour: number, strength: number): Programme {
  const count = programme.length;
  const low = index > 0 ? programme[index - 1]![0] : Math.max(0, programme[count - 1]![0] - 24);
  const high = index < count - 1 ? programme[index + 1]![0] : Math.min(programme[0]![0] + 24, 48);
  const most = index === 0 ? Math.min(high, 23 + 55 / 60) : high;
  const snapped = Math.round(hour * 12) / 12;
  const at = Math.min(most, Math.max(low, snapped));
  const share = Math.min(1, Math.max(0, Math.round(100 * strength) / 100));
  return programme.map((p, i) => (i === index ? [at, share] : p));
}

/** A point more, in the middle of the longest piece. */
function withMore(programme: Programme): { readonly programme: Programme; readonly index: number } {
  let best = { gap: -1, index: 0 };
  programme.forEach(([hour], i) => {
    const next = programme[i + 1]?.[0];
    if (next !== undefined && next - hour > best.gap) best = { gap: next - hour, index: i };
  });
  const [from, to] = [programme[best.index]!, programme[best.index + 1]!];
  const middle = [Math.round(6 * (from[0] + to[0])) / 12, Math.round(50 * (from[1] + to[1])) / 100] as const;
  return { programme: programme.toSpliced(best.index + 1, 0, middle), index: best.index + 1 };
}

interface EditorProps {
  /** What the day belongs to: lamp, lamp 2, deep red. */
  readonly of: string;
  readonly programme: Programme;
  readonly onKeep: (text: string) => void;
}

/** A day point by point: its curve with a handle on every point, and the same as text. */
export function ProgrammeEditor({ of, programme, onKeep }: EditorProps) {
  const kept = programmeText(programme);
  const [draft, setDraft] = useState(programme);
  const [text, setText] = useState(kept);
  const [wrong, setWrong] = useState("");
  const [frame, width] = useWidth(480);
  /** Place of an hour from 0 to 24, both ends of the day apart. */
  const x24 = (hour: number): number => SIDE + ((width - 2 * SIDE) * hour) / 24;
  const toX = (hour: number): number => x24(((hour % 24) + 24) % 24);
  const held = useRef<number | null>(null);
  const box = useRef<SVGSVGElement>(null);
  const id = useId();
  useEffect(() => {
    const read = readProgramme(kept);
    if (read.ok) setDraft(read.programme);
    setText(kept);
    setWrong("");
  }, [kept]);
  const show = (next: Programme): void => {
    setDraft(next);
    setText(programmeText(next));
    setWrong("");
  };
  const keep = (next: Programme): void => {
    show(next);
    if (programmeText(next) !== kept) onKeep(programmeText(next));
  };
  const at = (event: PointerEvent): readonly [hour: number, strength: number] => {
    const place = box.current!.getBoundingClientRect();
    const x = ((event.clientX - place.left) / place.width) * width;
    const y = ((event.clientY - place.top) / place.height) * HEIGHT;
    return [(24 * (x - SIDE)) / (width - 2 * SIDE), (BOTTOM - y) / (BOTTOM - TOP)];
  };
  const drag = (event: PointerEvent): void => {
    const index = held.current;
    if (index === null) return;
    const [hour, strength] = at(event);
    // the day that lies nearest to where the point is now
    const turn = 24 * Math.round((draft[index]![0] - hour) / 24);
    show(moved(draft, index, hour + turn, strength));
  };
  const key = (event: KeyboardEvent, index: number): void => {
    const [hour, strength] = draft[index]!;
    const [minutes, percents] = event.shiftKey ? [60, 10] : [5, 1];
    const steps: Readonly<Record<string, readonly [number, number]>> = {
      ArrowLeft: [-minutes / 60, 0],
      ArrowRight: [minutes / 60, 0],
      ArrowUp: [0, percents / 100],
      ArrowDown: [0, -percents / 100],
    };
    const step = steps[event.key];
    if (step) keep(moved(draft, index, hour + step[0], strength + step[1]));
    else if ((event.key === "Delete" || event.key === "Backspace") && draft.length > 2) keep(draft.toSpliced(index, 1));
    else return;
    event.preventDefault();
  };
  const typed = (): void => {
    const read = readProgramme(text);
    if (read.ok) keep(read.programme);
    else setWrong(`${read.message}; allowed: ${programmeAllowed}`);
  };
  const lit = pieces(draft);
  const line = lit
    .map(([from, first, to, last]) => `M${x24(from)} ${toY(first)}L${x24(to)} ${toY(last)}`)
    .concat(
      draft.flatMap(([hour, s], i) =>
        draft[i + 1]?.[0] === hour ? [`M${toX(hour)} ${toY(s)}V${toY(draft[i + 1]![1])}`] : [],
      ),
    )
    .join("");
  const area = lit
    .map(([from, first, to, last]) => `M${x24(from)} ${BOTTOM}V${toY(first)}L${x24(to)} ${toY(last)}V${BOTTOM}Z`)
    .join("");
  return (
    <div className="programme" ref={frame}>
      <svg
        ref={box}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="group"
        aria-label={`Day of ${of}`}
        onPointerMove={drag}
        onPointerUp={() => {
          if (held.current !== null) keep(draft);
          held.current = null;
        }}
        onPointerCancel={() => {
          held.current = null;
          show(programme);
        }}
      >
        <path className="programme-lit" d={area} />
        {[0, 0.5, 1].map((s) => (
          <line key={s} className="programme-rule" x1={x24(0)} x2={x24(24)} y1={toY(s)} y2={toY(s)} />
        ))}
        {[0, 6, 12, 18, 24].map((h) => (
          <text key={h} x={x24(h)} y={HEIGHT - 6} textAnchor={h === 0 ? "start" : h === 24 ? "end" : "middle"}>
            {h === 24 ? "24" : String(h).padStart(2, "0")}
          </text>
        ))}
        <text x={x24(24)} y={toY(1) + 12} textAnchor="end">
          100 %
        </text>
        <path className="programme-line" d={line} />
        {draft.map((p, i) => (
          <circle
            // biome-ignore lint/suspicious/noArrayIndexKey: points are known by their order
            key={i}
            className="programme-point"
            cx={toX(p[0])}
            cy={toY(p[1])}
            r={6}
            role="slider"
            tabIndex={0}
            aria-label={`point ${i + 1} of ${draft.length}, ${clock(p[0])}`}
            aria-valuemin={0}
            aria-valuemax={100}
            aria-valuenow={Math.round(100 * p[1])}
            aria-valuetext={told(p)}
            onPointerDown={(event) => {
              box.current?.setPointerCapture(event.pointerId);
              event.currentTarget.focus();
              held.current = i;
            }}
            onKeyDown={(event) => key(event, i)}
          >
            <title>{told(p)}</title>
          </circle>
        ))}
      </svg>
      <p className="programme-told">
        <span>
          as much as {Number(fullHoursOf(draft).toFixed(1))} <small>h</small> at full
        </span>
        <button
          type="button"
          className="link"
          disabled={draft.length >= mostPoints}
          onClick={() => keep(withMore(draft).programme)}
        >
          a point more
        </button>
      </p>
      <label htmlFor={id}>
        <span className="hidden-text">day of {of}, </span>in words
      </label>
      <textarea
        id={id}
        rows={2}
        value={text}
        spellCheck={false}
        aria-invalid={wrong ? true : undefined}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onChange={(e) => setText(e.target.value)}
        onBlur={typed}
      />
      {wrong && (
        <p id={`${id}-wrong`} className="problem-word" role="alert">
          {wrong}
        </p>
      )}
      <p className="programme-help">Drag a point, or take it with the tab key: arrows move it, Delete takes it out.</p>
    </div>
  );
}

import { type Band, type BandedSeries, clock, type DayCurves, type Limit, type UnitSystem } from "@lentic/core/design";
import type { ReadingPlan } from "@lentic/core/plan";
import { memo, type PointerEvent, useId, useRef } from "react";
import { Grip } from "./grip.tsx";
import { Labels, type Spot, textWidth } from "./labels.ts";
import { type Scale, scaleFor, widen } from "./scale.ts";
import { valueAt } from "./time.ts";

/** What can be dragged in the strip. */
export type StripKnob = "opens" | "closes" | "on" | "off" | "strength";

interface Programme {
  readonly valve: { readonly opens: number; readonly closes: number } | null;
  readonly lamp: { readonly on: number; readonly off: number; readonly ramp: number; readonly strength: number } | null;
}

interface StripProps {
  readonly curves: DayCurves;
  readonly programme: Programme;
  readonly pinned?: { readonly curves: DayCurves; readonly programme: Programme; readonly label: string } | undefined;
  readonly bands?: Readonly<Record<BandedSeries, Band>> | undefined;
  readonly limits: readonly Limit[];
  readonly readings: readonly ReadingPlan[];
  readonly units: UnitSystem;
  /** Hour read off, and what it is called ("now"). */
  readonly cursor: { readonly hour: number; readonly name: string };
  readonly width: number;
  readonly onCursor: (hour: number) => void;
  readonly onDrag: (knob: StripKnob, value: number) => void;
}

interface Row {
  readonly id: BandedSeries;
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
  readonly y: number;
  readonly height: number;
  readonly most: number;
  readonly floor?: number;
  /** Smallest span worth drawing, so that a flat line stays flat. */
  readonly span: number;
}

const rows: readonly Row[] = [
  { id: "co2", title: "Carbon dioxide", unit: "mg/L", decimals: 1, y: 24, height: 206, most: 5, floor: 0, span: 6 },
  { id: "oxygen", title: "Oxygen", unit: "mg/L", decimals: 1, y: 256, height: 108, most: 4, floor: 0, span: 3 },
  { id: "ph", title: "pH", unit: "", decimals: 2, y: 390, height: 100, most: 4, span: 0.6 },
  { id: "temperature", title: "Water", unit: "°C", decimals: 1, y: 516, height: 82, most: 4, span: 3 },
];
const axisY = 616;
const valveY = 640;
const lampTop = 666;
const lampHeight = 36;
const bottom = 712;
const left = 30;

const fahrenheit = (c: number): number => c * 1.8 + 32;

const everyHour = Array.from({ length: 25 }, (_, h) => h);

/** A day from midnight to midnight: four curves, lit hours pale, the valve's and the lamp's times below with their handles. */
export const Strip = memo(function Strip(props: StripProps) {
  const { curves, programme, pinned, bands, limits, readings, units, cursor, width, onCursor, onDrag } = props;
  const hatch = useId();
  const scales = useRef(new Map<string, Scale>());
  const svg = useRef<SVGSVGElement>(null);
  const right = width - 4;
  const x = (h: number): number => left + ((right - left) * h) / 24;
  const hourAt = (clientX: number): number => {
    const box = svg.current?.getBoundingClientRect();
    if (!box || box.width === 0) return 0;
    return Math.max(0, Math.min(24, ((((clientX - box.left) / box.width) * width - left) / (right - left)) * 24));
  };
  const us = units === "us";
  const show = (row: Row, v: number): number => (row.id === "temperature" && us ? fahrenheit(v) : v);
  const digits = (row: Row, v: number): string => show(row, v).toFixed(row.decimals);
  const unitOf = (row: Row): string => (row.id === "temperature" && us ? "°F" : row.unit);
  const { lamp, valve } = programme;
  const labels = new Labels({ x: left, y: 0, width: right - left, height: bottom });

  const scaleOf = (row: Row): Scale => {
    const values: number[] = [];
    const take = (c: DayCurves): void => {
      for (const v of c.series[row.id]) values.push(show(row, v));
    };
    take(curves);
    if (pinned) take(pinned.curves);
    for (const l of limits) {
      if (l.series !== row.id) continue;
      const span = row.span * (row.id === "temperature" && us ? 1.8 : 1);
      values.push(show(row, l.value), show(row, l.value) + (l.side === "over" ? 0.3 : -0.3) * span);
    }
    if (row.id === "co2" && curves.wanted) values.push(curves.wanted.value);
    if (row.floor === 0 && row.id === "co2") values.push(0);
    for (const r of readings)
      if (r.what === row.id) values.push(show(row, r.value - (r.error ?? 0)), show(row, r.value + (r.error ?? 0)));
    const middle = (Math.min(...values) + Math.max(...values)) / 2;
    const half = (row.span * (row.id === "temperature" && us ? 1.8 : 1)) / 2;
    values.push(Math.max(row.floor ?? Number.NEGATIVE_INFINITY, middle - half), middle + half);
    const fresh = scaleFor(values, row.most, row.floor === undefined ? { pad: 0.04 } : { floor: row.floor, pad: 0.04 });
    const key = `${row.id} ${units}`;
    const kept = widen(scales.current.get(key), fresh, row.most);
    scales.current.set(key, kept);
    return kept;
  };
  const scale = new Map(rows.map((r) => [r.id, scaleOf(r)]));
  const y = (row: Row, shown: number): number => {
    const s = scale.get(row.id)!;
    return row.y + row.height - ((shown - s.low) / (s.high - s.low)) * row.height;
  };
  const yv = (row: Row, v: number): number => y(row, show(row, v));
  const path = (row: Row, values: Float64Array): string => {
    let d = "";
    for (let i = 0; i < values.length; i += 1) {
      d += `${i === 0 ? "M" : "L"}${x(curves.hours[i]!).toFixed(1)} ${yv(row, values[i]!).toFixed(1)}`;
    }
    return d;
  };
  const bandPath = (row: Row, band: Band): string => {
    const s = scale.get(row.id)!;
    const keep = (v: number): number => Math.max(s.low, Math.min(s.high, show(row, v)));
    let up = "";
    let down = "";
    for (let i = 0; i < curves.hours.length; i += 2) {
      const at = x(curves.hours[i]!).toFixed(1);
      up += `${i === 0 ? "M" : "L"}${at} ${y(row, keep(band.high[i]!)).toFixed(1)}`;
      down = `L${at} ${y(row, keep(band.low[i]!)).toFixed(1)}${down}`;
    }
    return `${up}${down}Z`;
  };

  const nowX = x(cursor.hour);
  const limitBands = limits.map((limit) => {
    const row = rows.find((r) => r.id === limit.series)!;
    const s = scale.get(row.id)!;
    const edge = Math.max(row.y, Math.min(row.y + row.height, yv(row, limit.value)));
    const far = limit.side === "over" ? y(row, s.high) : y(row, s.low);
    const top = Math.min(edge, far);
    const height = Math.abs(far - edge);
    const baseline =
      limit.side === "over" ? Math.min(top + height / 2 + 4, edge - 4) : Math.max(top + height / 2 + 4, edge + 12);
    const spot =
      height < 4
        ? null
        : labels.place(limit.words, [
            { x: left + 7, y: Math.max(row.y + 11, Math.min(row.y + row.height - 3, baseline)), anchor: "start" },
          ]);
    return { limit, edge, top, height, spot };
  });
  labels.reserve({ x: nowX - 1, y: 20, width: 2, height: 580 });
  for (const row of rows) {
    const values = curves.series[row.id];
    for (let i = 0; i < values.length; i += 3) {
      labels.reserve({ x: x(curves.hours[i]!) - 2, y: yv(row, values[i]!) - 1.5, width: 4.5, height: 3 });
    }
  }

  return (
    <svg
      ref={svg}
      className="strip"
      viewBox={`0 0 ${width} ${bottom + 2}`}
      role="group"
      aria-label="The day from midnight to midnight"
      onPointerDown={(event: PointerEvent<SVGSVGElement>) => {
        if ((event.target as Element).closest(".grip")) return;
        onCursor(hourAt(event.clientX));
      }}
      onPointerMove={(event) => {
        if (event.buttons === 1 && !(event.target as Element).closest(".grip")) onCursor(hourAt(event.clientX));
      }}
    >
      <defs>
        <pattern id={`${hatch}a`} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className="hatch" d="M0 0V5" />
        </pattern>
        <pattern id={`${hatch}b`} width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className="hatch-dense" d="M0 0V3" />
        </pattern>
      </defs>
      <Hours x={x} lamp={lamp} />
      {rows.map((row) => (
        <g key={row.id}>
          {[3, 6, 9, 12, 15, 18, 21].map((h) => (
            <path key={h} className="grid" d={`M${x(h).toFixed(1)} ${row.y}v${row.height}`} />
          ))}
          {scale.get(row.id)!.ticks.map((v) => (
            <g key={v}>
              <path className="grid" d={`M${left} ${y(row, v).toFixed(1)}H${right}`} />
              <text className="tick" x={left - 5} y={y(row, v) + 4} textAnchor="end">
                {v.toFixed(scale.get(row.id)!.decimals)}
              </text>
            </g>
          ))}
          <path className="frame" d={`M${left} ${row.y + row.height}H${right}`} />
          <text className="title" x={left} y={row.y - (row.id === "co2" ? 9 : 8)}>
            {row.title} <tspan className="unit">{unitOf(row)}</tspan>
          </text>
        </g>
      ))}
      {limitBands.map(({ limit, edge, top, height, spot }) => (
        <g key={`${limit.series} ${limit.side}`}>
          {height > 0 && <rect x={left} y={top} width={right - left} height={height} fill={`url(#${hatch}a)`} />}
          <path className="limit-line" d={`M${left} ${edge.toFixed(1)}H${right}`} />
          {spot && (
            <text className="limit-words" x={spot.x} y={spot.y}>
              {limit.words}
            </text>
          )}
        </g>
      ))}
      {bands && rows.map((row) => <path key={row.id} className="doubt" d={bandPath(row, bands[row.id])} />)}
      {pinned &&
        rows.map((row) => <path key={row.id} className="pinned" d={path(row, pinned.curves.series[row.id])} />)}
      <WantedMark rows={rows} curves={curves} x={x} y={yv} labels={labels} hatch={hatch} />
      {rows.map((row) => (
        <path key={row.id} className="curve" d={path(row, curves.series[row.id])} />
      ))}
      {readings.map((reading) => {
        const row = rows.find((r) => r.id === reading.what)!;
        const at = x(reading.at);
        const mid = yv(row, reading.value);
        labels.reserve({ x: at - 6, y: mid - 6, width: 12, height: 12 });
        const up = yv(row, reading.value + (reading.error ?? 0));
        const down = yv(row, reading.value - (reading.error ?? 0));
        const words = `your reading ${clock(reading.at)}${reading.note ? `, ${reading.note}` : ""}`;
        const spot = labels.place(words, around(at, mid, up, down));
        return (
          <g key={`${reading.what} ${reading.at} ${reading.value}`}>
            {reading.error !== null && (
              <path className="error" d={`M${at} ${up}V${down}M${at - 3} ${up}h6M${at - 3} ${down}h6`} />
            )}
            <circle className="reading" cx={at} cy={mid} r="4" />
            {spot && (
              <text className="label halo" x={spot.x} y={spot.y} textAnchor={spot.anchor}>
                {words}
              </text>
            )}
          </g>
        );
      })}
      {curves.extremes.map((e) => {
        const row = rows.find((r) => r.id === e.series)!;
        const at = x(e.at);
        const py = yv(row, e.value);
        const words = e.series === "oxygen" && e.kind === "low" ? "at dawn" : `at ${clock(e.at)}`;
        const text = `${digits(row, e.value)} ${words}`;
        const side = e.kind === "high" ? -1 : 1;
        const above = py + (side < 0 ? -7 : 16);
        const spots: Spot[] = [
          // beside the night, as in a tide table, where the point lies shortly before it
          ...(lamp && e.at <= lamp.off && lamp.off - e.at < 2
            ? [{ x: x(lamp.off) + 5, y: py + 4, anchor: "start" } as const]
            : []),
          { x: at + 6, y: py + 4, anchor: "start" },
          { x: at, y: above, anchor: "middle" },
          { x: at + 8, y: above, anchor: "start" },
          { x: at - 6, y: above, anchor: "end" },
          { x: at - 8, y: py + 4, anchor: "end" },
          { x: right, y: above, anchor: "end" },
          { x: at, y: py + (side < 0 ? 18 : -9), anchor: "middle" },
          { x: at - 6, y: py + (side < 0 ? 18 : -9), anchor: "end" },
          { x: at + 8, y: py + (side < 0 ? 18 : -9), anchor: "start" },
          { x: at + 8, y: above + side * 10, anchor: "start" },
          { x: at - 8, y: above + side * 10, anchor: "end" },
          { x: left + 7, y: above, anchor: "start" },
        ];
        const spot = labels.place(text, spots);
        return (
          <g key={`${e.series} ${e.kind}`}>
            <circle className="point" cx={at} cy={py} r="2.2" />
            {spot && (
              <text className="label halo" x={spot.x} y={spot.y} textAnchor={spot.anchor}>
                <tspan className="figure">{digits(row, e.value)}</tspan> {words}
              </text>
            )}
          </g>
        );
      })}
      {pinned && <PinnedLabel pinned={pinned} row={rows[0]!} x={x} y={yv} labels={labels} />}
      <path className="now" d={`M${nowX.toFixed(1)} 20V${rows[3]!.y + rows[3]!.height}`} />
      {rows.map((row) => {
        const v = valueAt(curves.hours, curves.series[row.id], cursor.hour);
        const anchor = nowX < left + 60 ? "start" : nowX > right - 60 ? "end" : "middle";
        const clear = Math.max(
          nowX,
          left + textWidth(`${row.title} ${unitOf(row)}`, 13) + (anchor === "middle" ? 24 : 4),
        );
        return (
          <g key={row.id}>
            <circle className="now-dot" cx={nowX} cy={yv(row, v)} r="3" />
            <text
              className="now-value"
              x={row.id === "co2" ? Math.max(clear, nowX < left + 190 ? left + 190 : 0) : clear}
              y={row.y - (row.id === "co2" ? 9 : 8)}
              textAnchor={anchor}
            >
              {row.id === "co2" && (
                <tspan className="now-name">
                  {cursor.name} {clock(cursor.hour)}{" "}
                </tspan>
              )}
              {digits(row, v)}
            </text>
          </g>
        );
      })}
      {everyHour.map((h) => (
        <path key={h} className="frame" d={`M${x(h).toFixed(1)} ${rows[3]!.y + rows[3]!.height}v${h % 3 ? 3 : 6}`} />
      ))}
      {[0, 3, 6, 9, 12, 15, 18, 21, 24].map((h) => (
        <text
          key={h}
          className="tick"
          x={x(h)}
          y={axisY + 2}
          textAnchor={h === 24 ? "end" : h === 0 ? "start" : "middle"}
        >
          {h === 24 ? "24 h" : h}
        </text>
      ))}
      {valve && (
        <ValveBar valve={valve} pinned={pinned?.programme.valve ?? null} x={x} hourAt={hourAt} onDrag={onDrag} />
      )}
      {lamp && (
        <LampBar
          lamp={lamp}
          pinned={pinned?.programme.lamp ?? null}
          x={x}
          right={right}
          hourAt={hourAt}
          svg={svg}
          onDrag={onDrag}
        />
      )}
    </svg>
  );
});

function around(at: number, mid: number, up: number, down: number): Spot[] {
  return [
    { x: at + 9, y: mid + 16, anchor: "start" },
    { x: at + 9, y: mid - 8, anchor: "start" },
    { x: at, y: down + 14, anchor: "middle" },
    { x: at, y: up - 6, anchor: "middle" },
    { x: at + 9, y: down + 14, anchor: "start" },
    { x: at + 9, y: down + 32, anchor: "start" },
    { x: at - 9, y: mid + 16, anchor: "end" },
    { x: at - 9, y: mid - 8, anchor: "end" },
    { x: at - 9, y: down + 20, anchor: "end" },
  ];
}

type Place = (row: Row, value: number) => number;
type Hours = (h: number) => number;

function Hours({ x, lamp }: { x: Hours; lamp: Programme["lamp"] }) {
  const lit: [number, number][] = !lamp
    ? []
    : lamp.on < lamp.off
      ? [[lamp.on, lamp.off]]
      : [
          [0, lamp.off],
          [lamp.on, 24],
        ];
  const top = rows[0]!.y;
  return (
    <>
      <rect className="night" x={x(0)} y={top} width={x(24) - x(0)} height={bottom - top} />
      {lit.map(([from, to]) => (
        <rect
          key={from}
          className="day"
          x={x(from)}
          y={top}
          width={Math.max(0, x(to) - x(from))}
          height={bottom - top}
        />
      ))}
      {rows.map((row, i) => {
        const next = rows[i + 1];
        const end = next ? next.y : axisY + 8;
        return (
          <rect
            key={row.id}
            className="gutter"
            x={0}
            y={row.y + row.height}
            width={x(24) + 6}
            height={end - row.y - row.height}
          />
        );
      })}
    </>
  );
}

/** The wanted level and, where the rise comes late, the shortfall as a hatched wedge under a dimension line. */
function WantedMark(p: { rows: readonly Row[]; curves: DayCurves; x: Hours; y: Place; labels: Labels; hatch: string }) {
  const { curves, x, y, labels, hatch } = p;
  const { wanted } = curves;
  const row = p.rows[0]!;
  if (!wanted) return null;
  const level = y(row, wanted.value);
  const from = x(wanted.from);
  const to = x(wanted.to);
  const words = `wanted ${wanted.value.toFixed(0)}`;
  const end = wanted.reachedAt === null ? wanted.to : Math.min(wanted.to, wanted.reachedAt);
  const short = wanted.atOn < wanted.value - 0.3 && end > wanted.from;
  let wedge = "";
  if (short) {
    wedge = `M${from.toFixed(1)} ${level.toFixed(1)}H${x(end).toFixed(1)}`;
    for (let h = end; h >= wanted.from; h -= 1 / 12) {
      wedge += `L${x(h).toFixed(1)} ${y(row, Math.min(wanted.value, valueAt(curves.hours, curves.series.co2, h))).toFixed(1)}`;
    }
    wedge += "Z";
  }
  const late = short && wanted.reachedAt !== null && wanted.late >= 4 && wanted.reachedAt < wanted.to;
  const lateWords = late ? `${Math.round(wanted.late / 5) * 5} min late` : short ? "not reached" : "";
  const b = x(end);
  const dimension = level - 9;
  const lateSpot = lateWords
    ? labels.place(
        lateWords,
        [
          { x: from - 7, y: dimension + 1, anchor: "end" },
          { x: from + 4, y: dimension - 8, anchor: "start" },
          { x: b + 7, y: dimension + 1, anchor: "start" },
        ],
        12,
        2,
      )
    : null;
  const spot = labels.place(words, [
    { x: to - 8, y: level + 14, anchor: "end" },
    { x: to - 8, y: level - 5, anchor: "end" },
    { x: from + 8, y: level + 14, anchor: "start" },
  ]);
  return (
    <g>
      <path className="wanted" d={`M${from.toFixed(1)} ${level.toFixed(1)}H${to.toFixed(1)}`} />
      {wedge && <path d={wedge} fill={`url(#${hatch}b)`} />}
      {late && (
        <path
          className="dimension"
          d={`M${from} ${level + 2}V${dimension - 4}M${b} ${level - 2}V${dimension - 4}M${from} ${dimension}H${b}M${from - 2.5} ${dimension + 2.5}l5 -5M${b - 2.5} ${dimension + 2.5}l5 -5`}
        />
      )}
      {lateSpot && (
        <>
          <text className="late" x={lateSpot.x} y={lateSpot.y} textAnchor={lateSpot.anchor}>
            {lateWords}
          </text>
          <text className="label" x={lateSpot.x} y={lateSpot.y + 14} textAnchor={lateSpot.anchor}>
            {wanted.atOn.toFixed(1)} at lights-on
          </text>
        </>
      )}
      {spot && (
        <text className="wanted-words halo" x={spot.x} y={spot.y} textAnchor={spot.anchor}>
          {words}
        </text>
      )}
    </g>
  );
}

function PinnedLabel(p: {
  pinned: { curves: DayCurves; label: string };
  row: Row;
  x: Hours;
  y: Place;
  labels: Labels;
}) {
  const { hours, series } = p.pinned.curves;
  const words = `pinned: ${p.pinned.label}`;
  const spots: Spot[] = [];
  for (const h of [7.5, 8.5, 9.5, 6, 4, 13, 20, 22]) {
    const py = p.y(p.row, valueAt(hours, series.co2, h));
    spots.push(
      { x: p.x(h) - 6, y: py - 2, anchor: "end" },
      { x: p.x(h), y: py - 8, anchor: "middle" },
      { x: p.x(h), y: py + 18, anchor: "middle" },
    );
  }
  const spot = p.labels.place(words, spots);
  return (
    spot && (
      <text className="pinned-words halo" x={spot.x} y={spot.y} textAnchor={spot.anchor}>
        {words}
      </text>
    )
  );
}

interface BarProps {
  readonly x: Hours;
  readonly hourAt: (clientX: number) => number;
  readonly onDrag: (knob: StripKnob, value: number) => void;
}

/** Ten minutes, or one with the shift key: what a timer can be set to. */
const snap = (h: number): number => Math.round(h * 6) / 6;

function ValveBar(p: BarProps & { valve: NonNullable<Programme["valve"]>; pinned: Programme["valve"] }) {
  const { valve, pinned, x, hourAt, onDrag } = p;
  const bar = (from: number, to: number): [number, number][] =>
    from <= to
      ? [[from, to]]
      : [
          [0, to],
          [from, 24],
        ];
  return (
    <g>
      {bar(valve.opens, valve.closes).map(([a, b]) => (
        <rect key={a} className="valve-bar" x={x(a)} y={valveY - 4} width={Math.max(0, x(b) - x(a))} height={8} />
      ))}
      {pinned &&
        bar(pinned.opens, pinned.closes).map(([a, b]) => (
          <path
            key={a}
            className="pinned"
            d={`M${x(a)} ${valveY + 8}H${x(b)}M${x(a)} ${valveY + 5}v6M${x(b)} ${valveY + 5}v6`}
          />
        ))}
      <text
        className="bar-name"
        x={left + 7}
        y={valveY + 4}
        visibility={x(Math.min(valve.opens, valve.closes)) < left + 112 ? "hidden" : undefined}
      >
        valve open
      </text>
      <text className="handle-value" x={x(valve.opens) - 9} y={valveY + 4} textAnchor="end">
        {clock(valve.opens)}
      </text>
      <text className="handle-value" x={x(valve.closes) + 9} y={valveY + 4}>
        {clock(valve.closes)}
      </text>
      <Grip
        label="valve opens"
        text={clock(valve.opens)}
        value={valve.opens}
        min={0}
        max={23.99}
        step={1 / 6}
        x={x(valve.opens)}
        y={valveY}
        height={20}
        read={(e) => snap(hourAt(e.clientX))}
        onChange={(v) => onDrag("opens", v)}
      />
      <Grip
        label="valve closes"
        text={clock(valve.closes)}
        value={valve.closes}
        min={0}
        max={23.99}
        step={1 / 6}
        x={x(valve.closes)}
        y={valveY}
        height={20}
        read={(e) => snap(hourAt(e.clientX))}
        onChange={(v) => onDrag("closes", v)}
      />
    </g>
  );
}

function LampBar(
  p: BarProps & {
    lamp: NonNullable<Programme["lamp"]>;
    pinned: Programme["lamp"];
    right: number;
    svg: React.RefObject<SVGSVGElement | null>;
  },
) {
  const { lamp, pinned, x, right, hourAt, onDrag, svg } = p;
  const base = lampTop + lampHeight;
  const shape = (l: NonNullable<Programme["lamp"]>): string => {
    const top = base - lampHeight * l.strength;
    const ramp = Math.min(l.ramp, (l.off - l.on) / 2);
    return `M${x(l.on)} ${base}L${x(l.on + ramp)} ${top}H${x(l.off - ramp)}L${x(l.off)} ${base}`;
  };
  const top = base - lampHeight * lamp.strength;
  const middle = x((lamp.on + lamp.off) / 2);
  const strengthAt = (clientY: number): number => {
    const box = svg.current?.getBoundingClientRect();
    if (!box || box.height === 0) return lamp.strength;
    const yy = ((clientY - box.top) / box.height) * (bottom + 2);
    return Math.max(0.05, Math.min(1, Math.round(((base - yy) / lampHeight) * 100) / 100));
  };
  return (
    <g>
      <path className="lamp-bar" d={`${shape(lamp)}Z`} />
      {pinned && <path className="pinned" d={shape(pinned)} />}
      <path className="frame" d={`M${left} ${base}H${right}`} />
      <text className="bar-name" x={left + 7} y={base - 5} visibility={x(lamp.on) < left + 84 ? "hidden" : undefined}>
        lamp
      </text>
      <text className="handle-value" x={x(lamp.on) - 9} y={base - 5} textAnchor="end">
        {clock(lamp.on)}
      </text>
      <text className="handle-value" x={x(lamp.off) + 9} y={base - 5}>
        {clock(lamp.off)}
      </text>
      {x(lamp.off) - x(lamp.on) > 60 && (
        <text className="handle-value" x={middle} y={Math.min(base - 5, top + 19)} textAnchor="middle">
          {Math.round(lamp.strength * 100)} %
        </text>
      )}
      <Grip
        label="lamp on"
        text={clock(lamp.on)}
        value={lamp.on}
        min={0}
        max={23.5}
        step={1 / 6}
        x={x(lamp.on)}
        y={base - 8}
        height={20}
        read={(e) => snap(hourAt(e.clientX))}
        onChange={(v) => onDrag("on", v)}
      />
      <Grip
        label="lamp off"
        text={clock(lamp.off)}
        value={lamp.off}
        min={0.5}
        max={24}
        step={1 / 6}
        x={x(lamp.off)}
        y={base - 8}
        height={20}
        read={(e) => snap(hourAt(e.clientX))}
        onChange={(v) => onDrag("off", v)}
      />
      <Grip
        label="lamp strength"
        text={`${Math.round(lamp.strength * 100)} %`}
        value={lamp.strength}
        min={0.05}
        max={1}
        step={0.01}
        x={middle}
        y={top}
        height={7}
        lying
        read={(e) => strengthAt(e.clientY)}
        onChange={(v) => onDrag("strength", v)}
      />
    </g>
  );
}

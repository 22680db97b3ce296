import { type KeyboardEvent, type PointerEvent, useRef } from "react";

interface GripProps {
  readonly label: string;
  /** The value as a person reads it. */
  readonly text: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  /** Lies flat and is dragged up and down. */
  readonly lying?: boolean;
  readonly read: (event: { clientX: number; clientY: number }) => number;
  readonly onChange: (value: number) => void;
}

/** Next value for a key, or null when the key means nothing here. */
export function keyed(
  key: string,
  shift: boolean,
  value: number,
  min: number,
  max: number,
  step: number,
): number | null {
  const size = shift ? step * 6 : step;
  const to =
    key === "ArrowRight" || key === "ArrowUp"
      ? value + size
      : key === "ArrowLeft" || key === "ArrowDown"
        ? value - size
        : key === "PageUp"
          ? value + step * 6
          : key === "PageDown"
            ? value - step * 6
            : key === "Home"
              ? min
              : key === "End"
                ? max
                : null;
  if (to === null) return null;
  return Math.max(min, Math.min(max, Math.round(to * 1e6) / 1e6));
}

/** A handle in a drawing: dragged with a finger, mouse or the arrow keys. */
export function Grip(p: GripProps) {
  const dragging = useRef(false);
  const { x, y, height, lying } = p;
  return (
    <g
      className={lying ? "grip lying" : "grip"}
      tabIndex={0}
      role="slider"
      aria-label={p.label}
      aria-orientation={lying ? "vertical" : "horizontal"}
      aria-valuemin={p.min}
      aria-valuemax={p.max}
      aria-valuenow={Math.round(p.value * 1000) / 1000}
      aria-valuetext={p.text}
      onPointerDown={(event: PointerEvent<SVGGElement>) => {
        event.preventDefault();
        event.currentTarget.setPointerCapture(event.pointerId);
        event.currentTarget.focus();
        dragging.current = true;
      }}
      onPointerMove={(event) => {
        if (!dragging.current) return;
        const v = Math.max(p.min, Math.min(p.max, p.read(event)));
        if (v !== p.value) p.onChange(v);
      }}
      onPointerUp={() => {
        dragging.current = false;
      }}
      onPointerCancel={() => {
        dragging.current = false;
      }}
      onKeyDown={(event: KeyboardEvent<SVGGElement>) => {
        const v = keyed(event.key, event.shiftKey, p.value, p.min, p.max, p.step);
        if (v === null) return;
        event.preventDefault();
        p.onChange(v);
      }}
    >
      {lying ? (
        <>
          <rect className="hit" x={x - 22} y={y - 12} width="44" height="24" />
          <rect className="knob" x={x - 11} y={y - 3.5} width="22" height="7" rx="1" />
          <path className="notch" d={`M${x - 4} ${y - 1}h8M${x - 4} ${y + 1}h8`} />
        </>
      ) : (
        <>
          <rect className="hit" x={x - 12} y={y - height / 2 - 10} width="24" height={height + 20} />
          <rect className="knob" x={x - 3.5} y={y - height / 2} width="7" height={height} rx="1" />
          <path className="notch" d={`M${x - 1} ${y - 4}v8M${x + 1} ${y - 4}v8`} />
        </>
      )}
    </g>
  );
}

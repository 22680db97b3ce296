import type { Knob, Suits } from "@lentic/core/design";
import { type KeyboardEvent, type PointerEvent, useRef } from "react";
import { keyed } from "../strip/grip.tsx";
import { Mark } from "./mark.tsx";

interface KnobSliderProps {
  readonly knob: Knob;
  /** The value in the plan as kept. */
  readonly kept: number;
  readonly suits: Suits | undefined;
  readonly onTurn: (value: number) => void;
}

/** One setting to drag: a slide-rule pointer on a rail, the stretch that suits what lives here, a tick for the plan as kept. */
export function KnobSlider({ knob, kept, suits, onTurn }: KnobSliderProps) {
  const rail = useRef<HTMLDivElement>(null);
  const dragging = useRef(false);
  const { min, max, step } = knob;
  const place = (v: number): string => `${(Math.max(0, Math.min(1, (v - min) / (max - min))) * 100).toFixed(2)}%`;
  const read = (event: PointerEvent): number => {
    const box = rail.current!.getBoundingClientRect();
    const share = Math.max(0, Math.min(1, (event.clientX - box.left) / box.width));
    return Math.max(min, Math.min(max, Math.round((min + share * (max - min)) / step) * step));
  };
  const label = `${knob.label}, ${knob.known}`;
  return (
    <div className="knob">
      <div className="knob-head">
        <span>{knob.label}</span>
        <Mark known={knob.known} />
      </div>
      <div className="knob-value">
        <output>{knob.text}</output>
        <small>{knob.unit}</small>
        {knob.note && <span className="knob-note">{knob.note}</span>}
      </div>
      <div
        ref={rail}
        className="slider"
        role="slider"
        tabIndex={0}
        aria-label={label}
        aria-valuemin={min}
        aria-valuemax={max}
        aria-valuenow={Math.round(knob.value * 1000) / 1000}
        aria-valuetext={`${knob.text} ${knob.unit}`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          dragging.current = true;
          onTurn(read(event));
        }}
        onPointerMove={(event) => {
          if (!dragging.current) return;
          const v = read(event);
          if (v !== knob.value) onTurn(v);
        }}
        onPointerUp={() => {
          dragging.current = false;
        }}
        onPointerCancel={() => {
          dragging.current = false;
        }}
        onKeyDown={(event: KeyboardEvent) => {
          const v = keyed(event.key, event.shiftKey, knob.value, min, max, step);
          if (v === null) return;
          event.preventDefault();
          onTurn(v);
        }}
      >
        <i className="rail" />
        {suits && <i className="suits" style={{ left: place(suits.from), right: `calc(100% - ${place(suits.to)})` }} />}
        <i className="kept" style={{ left: place(kept) }} />
        <i className="pointer" style={{ left: place(knob.value) }} />
      </div>
    </div>
  );
}

import type { ScapeScene } from "@lentic/core/drawing";
import { useEffect, useRef, useState } from "react";
import type { Theme } from "./look.ts";
import type { ViewName } from "./orbit.ts";
import type { Thing } from "./stage.ts";
import type { View, ViewOptions } from "./view.ts";

export interface Room3dProps {
  readonly scene: ScapeScene;
  readonly selected: Thing | null;
  readonly onSelect: (thing: Thing | null) => void;
  readonly onMove: NonNullable<ViewOptions["onMove"]>;
  readonly theme: Theme;
  readonly reducedMotion: boolean;
  /** Where the eye stands; changing it moves the eye, the hand may move it on. */
  readonly view?: ViewName | "free";
  /** Whether the light under the lamps is shown. */
  readonly light?: boolean;
  /** What the picture is called for those who do not see it. */
  readonly label?: string;
  /** Told the view once it is there, for a picture of it, and null when it is gone. */
  readonly onView?: (view: View | null) => void;
}

const sentences = {
  loading: "The view is being set up …",
  missing: "This browser shows no pictures in three dimensions (it has no WebGL 2). The drawings show the same scape.",
  failed: "The view in three dimensions could not be set up. The drawings show the same scape.",
  lost: "The browser has taken the view's memory back; it returns by itself. The drawings show the same scape meanwhile.",
} as const;

type State = "drawn" | keyof typeof sentences;

/**
 * A scape in three dimensions, to be turned, looked at closely and moved about in. It fills its parent, which sets its
 * size; its code is fetched when it is first shown.
 */
export function Room3d(p: Room3dProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const view = useRef<View | null>(null);
  const latest = useRef(p);
  latest.current = p;
  const [state, setState] = useState<State>("loading");

  useEffect(() => {
    const element = canvas.current;
    if (!element) return;
    let gone = false;
    void import("./view.ts")
      .then(({ createView, NoPicture }) => {
        if (gone) return;
        const { scene, theme, reducedMotion, view: name, light = true, selected } = latest.current;
        try {
          view.current = createView(element, scene, {
            theme,
            reducedMotion,
            light,
            ...(name && name !== "free" ? { view: name } : {}),
            onSelect: (thing) => latest.current.onSelect(thing),
            onMove: (...told) => latest.current.onMove(...told),
            onLost: (lost) => setState(lost ? "lost" : "drawn"),
          });
          view.current.select(selected);
          setState("drawn");
          latest.current.onView?.(view.current);
        } catch (fault) {
          if (!(fault instanceof NoPicture)) console.error(fault);
          setState(fault instanceof NoPicture ? "missing" : "failed");
        }
      })
      .catch(() => {
        if (!gone) setState("failed");
      });
    return () => {
      gone = true;
      if (view.current) latest.current.onView?.(null);
      view.current?.dispose();
      view.current = null;
    };
  }, []);

  const { scene, selected, theme, reducedMotion, view: name, light = true } = p;
  useEffect(() => view.current?.update(scene), [scene]);
  useEffect(() => view.current?.select(selected), [selected]);
  useEffect(() => view.current?.dress(theme), [theme]);
  useEffect(() => view.current?.calm(reducedMotion), [reducedMotion]);
  useEffect(() => view.current?.light(light), [light]);
  useEffect(() => {
    if (name) view.current?.view(name);
  }, [name]);

  const drawn = state === "drawn";
  return (
    <div style={{ position: "relative", width: "100%", height: "100%" }}>
      {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: screen readers must pass the arrow keys on */}
      <canvas
        ref={canvas}
        // the keys that turn the view work when it has the focus
        tabIndex={drawn ? 0 : -1}
        role="application"
        aria-roledescription="view in three dimensions"
        aria-label={p.label ?? "The scape in three dimensions; arrow keys turn it, plus and minus bring it nearer"}
        style={{
          display: "block",
          width: "100%",
          height: "100%",
          touchAction: "none",
          visibility: drawn ? "visible" : "hidden",
        }}
      />
      {state !== "drawn" && (
        <p
          role="status"
          style={{
            position: "absolute",
            inset: 0,
            margin: "auto",
            height: "fit-content",
            padding: 16,
            maxWidth: "36em",
          }}
        >
          {sentences[state]}
        </p>
      )}
    </div>
  );
}

/** A page with nothing but the view, for the browser test. */
import type { ScapeScene } from "@lentic/core/drawing";
import { StrictMode, useState } from "react";
import { createRoot } from "react-dom/client";
import { demoScene, fullScene, gardenScene, withMoved } from "./demo.ts";
import { Room3d, type Thing, type View, type ViewName } from "./index.ts";

/** What the test reads and does on the page. */
export interface DemoPage {
  readonly selects: (Thing | null)[];
  readonly moves: {
    readonly kind: string;
    readonly index: number;
    readonly x: number;
    readonly y: number;
    readonly phase: string;
  }[];
  view: View | null;
  show(scene: ScapeScene): void;
  look(view: ViewName): void;
  choose(thing: Thing | null): void;
  readonly scenes: {
    readonly demo: typeof demoScene;
    readonly full: typeof fullScene;
    readonly garden: typeof gardenScene;
    readonly moved: typeof withMoved;
  };
}

const page: DemoPage = {
  selects: [],
  moves: [],
  view: null,
  show: () => {},
  look: () => {},
  choose: () => {},
  scenes: { demo: demoScene, full: fullScene, garden: gardenScene, moved: withMoved },
};
(globalThis as unknown as { demo: DemoPage }).demo = page;

const asked = new URLSearchParams(location.search);
const theme = asked.get("theme") === "room" ? "room" : "paper";

function Demo() {
  const [scene, setScene] = useState(demoScene);
  const [selected, setSelected] = useState<Thing | null>(null);
  const [view, setView] = useState<ViewName>((asked.get("view") as ViewName | null) ?? "corner");
  page.show = setScene;
  page.look = setView;
  page.choose = setSelected;
  return (
    <Room3d
      scene={scene}
      selected={selected}
      onSelect={(thing) => {
        page.selects.push(thing);
        setSelected(thing);
      }}
      onMove={(kind, index, { x, y, dx, dy }, phase) => {
        page.moves.push({ kind, index, x, y, phase });
        if (phase === "end") setScene((before) => withMoved(before, index, dx, dy));
      }}
      theme={theme}
      reducedMotion
      view={view}
      onView={(there) => {
        page.view = there;
      }}
    />
  );
}

createRoot(document.getElementById("root")!).render(
  <StrictMode>
    <Demo />
  </StrictMode>,
);

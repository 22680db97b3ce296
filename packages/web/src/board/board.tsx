import "../styles/board.css";
import { sceneGrown } from "@lentic/core/design";
import { findPlant, nearest, plants } from "@lentic/core/facts";
import type { Brush, Point2 } from "@lentic/core/geometry";
import type { PlantingWeek } from "@lentic/core/growth";
import type { Change, Plan, RawPlan } from "@lentic/core/plan";
import { addLamp, addPiece, addZone, group, moveTo, type Target } from "@lentic/core/scape";
import {
  type KeyboardEvent,
  lazy,
  Suspense,
  useDeferredValue,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from "react";
import { useSettings } from "../data/settings.ts";
import { load, store, texts } from "../data/stored.ts";
import { useWidth } from "../data/use-width.ts";
import { namesId } from "../form/names.tsx";
import { lengthWriter } from "../parts/length.ts";
import { Words } from "../parts/words.tsx";
import { BillTable } from "./bill-table.tsx";
import { FormChooser } from "./form-chooser.tsx";
import {
  draggedFromAbove,
  draggedFromFront,
  drawn,
  type GroundBrush,
  type GroundKind,
  type Handle,
  nextStroke,
  shaped,
  strokeAt,
  type Tool,
} from "./hand.ts";
import { ImportPiece } from "./import-piece.tsx";
import { Inspector, Summary } from "./inspector.tsx";
import { keyHelp, pressed } from "./keys.ts";
import { LightPanel } from "./light-panel.tsx";
import { OpenWaterLine } from "./open-water-line.tsx";
import { isThere, sameTarget } from "./selection.ts";
import { TakeAwayLine } from "./take-away-line.tsx";
import { Things } from "./things.tsx";
import { useBoard } from "./use-board.ts";
import { useDimmers } from "./use-dimmers.ts";
import { useLightMap } from "./use-light-map.ts";
import { useStable } from "./use-stable.ts";
import { FrontView, type HandEvent, PlanView } from "./views.tsx";

const GrowthPanel = lazy(() => import("./growth-panel.tsx").then((m) => ({ default: m.GrowthPanel })));
const Room3d = lazy(() => import("../room3d/index.ts").then((m) => ({ default: m.Room3d })));

interface BoardProps {
  readonly tank: string;
  readonly name: string;
  readonly raw: RawPlan;
  readonly plan: Plan;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

const tools: readonly (readonly [tool: Tool, label: string, help: string])[] = [
  ["select", "Select", "press a thing to take hold of it; drag it, its corners or its turning handle"],
  ["ground", "Ground", "drag over the plan to shape the bed"],
  ["stone", "Stone", "press where it shall lie"],
  ["wood", "Wood", "press where it shall lie"],
  ["plant", "Plant", "draw round an area, or press for a small one"],
  ["sand", "Sand", "draw round an area without planting"],
  ["step", "Step", "draw a line along which stones hold the bed up"],
];

const groundKinds: readonly (readonly [GroundKind, string])[] = [
  ["raise", "raise"],
  ["lower", "lower"],
  ["smooth", "smooth"],
  ["level", "level"],
];

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Figures of the lines of equal light: round ones, few enough to be told apart, umol/m2/s. */
function lightLevels(max: number): readonly number[] {
  const step = [5, 10, 20, 25, 50, 100, 200, 500].find((s) => max / s <= 7) ?? 1000;
  return Array.from({ length: Math.floor(max / step) }, (_, i) => (i + 1) * step);
}

/** What the reader has switched on; kept in this browser. */
interface Shown {
  readonly light: boolean;
  readonly height: boolean;
  readonly planting: boolean;
  readonly thirds: boolean;
  readonly balance: boolean;
  readonly animals: boolean;
}

const aids: readonly (readonly [keyof Shown, string])[] = [
  ["light", "light on the ground"],
  ["height", "soil height"],
  ["planting", "planting"],
  ["thirds", "thirds and golden section"],
  ["balance", "balance and open water"],
  ["animals", "animals"],
];

const shownKey = "lentic.board";

function loadShown(): Shown {
  const kept = load(shownKey, texts) ?? {};
  const on = (key: keyof Shown, usual: boolean): boolean => (kept[key] === undefined ? usual : kept[key] === "yes");
  return {
    light: on("light", true),
    height: on("height", true),
    planting: on("planting", true),
    thirds: on("thirds", false),
    balance: on("balance", false),
    animals: on("animals", true),
  };
}

interface Grip {
  readonly view: "plan" | "front";
  readonly tool: Tool;
  readonly handle: Handle;
  readonly target: Target | null;
  readonly path: Point2[];
  readonly strokes: Brush[];
}

/** The drawing board: the scape from above and from the front, or in three dimensions, and all that a hand can do to it. */
export function Board({ tank, name, raw, plan, onKeep }: BoardProps) {
  const door = useBoard(raw, plan, onKeep);
  const { state, still, kept, findings, bill } = door;
  const [tool, setTool] = useState<Tool>("select");
  const [chosen, setChosen] = useState<Target | null>(null);
  const [more, setMore] = useState<readonly Target[]>([]);
  const [species, setSpecies] = useState(() => state.scape.zones[0]?.fact.name ?? plants[0]!.name);
  const [brush, setBrush] = useState<GroundBrush>({ kind: "raise", radius: 0.08, strength: 0.01 });
  const [shown, setShown] = useState(loadShown);
  const [solid, setSolid] = useState(false);
  const [path, setPath] = useState<readonly Point2[] | null>(null);
  const [word, setWord] = useState("");
  const { scape, scene } = state;
  // under the brush, which is seen from above, the front view may come a frame later
  const later = useDeferredValue(scene);
  const [grown, setGrown] = useState<readonly PlantingWeek[] | null>(null);
  const shownScene = useMemo(() => (grown ? sceneGrown(scene, grown) : scene), [scene, grown]);
  const front = tool === "ground" && !grown ? later : shownScene;
  const grip = useRef<Grip | null>(null);
  const speciesId = useId();
  const known = findPlant(species);
  const near = known ? [] : nearest(species.slice(0, 80), ["plant"]);
  const [leftBox, leftWidth] = useWidth(700);
  const [rightBox, rightWidth] = useWidth(480);
  const followed = useLightMap(raw, shown.light);
  const { units, theme } = useSettings();
  const length = useMemo(() => {
    const write = lengthWriter(units);
    return (metres: number) => {
      const [number = "", unit = ""] = write(metres).split(" ");
      return { number, unit };
    };
  }, [units]);
  const dimmers = useDimmers(followed, raw, plan, onKeep);
  const { light } = dimmers;
  const lightMap = useMemo(() => {
    const ground = light.report?.ground;
    return ground ? { ...ground, levels: lightLevels(light.report.max) } : null;
  }, [light.report]);

  const target = isThere(chosen, state.scene) ? chosen : null;
  const say = (changes: readonly Change[]): void => {
    const last = changes.at(-1);
    if (last) setWord(`${last.name} kept`);
  };
  const keep = useStable((what: string, changes: readonly Change[]): void => {
    onKeep(what, changes);
    say(changes);
  });
  const select = useStable((next: Target | null, add = false): void => {
    if (add && next?.kind === "piece" && target?.kind === "piece") {
      const rest = more.filter((m) => !sameTarget(m, next));
      setMore(rest.length < more.length ? rest : [...more, next]);
      return;
    }
    setMore([]);
    setChosen(next);
  });
  useEffect(() => store(shownKey, Object.fromEntries(aids.map(([key]) => [key, shown[key] ? "yes" : "no"]))), [shown]);

  const begin = (view: Grip["view"], event: HandEvent): void => {
    const working = view === "front" && tool !== "select" ? "select" : tool;
    const hit = event.target;
    if (working === "select" && event.handle === "body") select(hit, event.add);
    grip.current = {
      view,
      tool: working,
      handle: event.handle,
      target: working === "select" ? (event.handle === "body" ? hit : target) : target,
      path: [event.at],
      strokes: working === "ground" ? [strokeAt(brush, event.at)] : [],
    };
    if (working === "ground") door.shape(grip.current.strokes);
  };
  const move = useStable((event: HandEvent): void => {
    const held = grip.current;
    if (!held) return;
    held.path.push(event.at);
    const start = held.path[0]!;
    if (held.tool === "ground") {
      if (!nextStroke(held.strokes, event.at)) return;
      held.strokes.push(strokeAt(brush, event.at));
      door.shape(held.strokes);
      return;
    }
    if (held.tool !== "select") {
      setPath([...held.path]);
      return;
    }
    if (!held.target) return;
    const dragged = held.view === "plan" ? draggedFromAbove : draggedFromFront;
    door.show(dragged(kept, held.target, held.handle, start, event.at));
  });
  const end = useStable((): void => {
    const held = grip.current;
    grip.current = null;
    setPath(null);
    if (!held) return;
    if (held.tool === "ground" || held.tool === "select") {
      if (held.tool === "ground") door.keep(shaped(kept, held.strokes));
      else if (held.path.length > 1) door.keep();
      return;
    }
    if (held.tool === "plant" && !known) return;
    const changes = drawn(kept, state.scene, held.tool, held.path, known?.name ?? species, target);
    if (changes.length === 0) return;
    door.keep(changes);
    say(changes);
    const added = changes.at(-1)!.path;
    if (added[0] === "hardscape") setChosen({ kind: "piece", index: Number(added[1]) });
    if (added[0] === "plants") setChosen({ kind: "zone", index: Number(added[1]) });
    if (held.tool === "stone" || held.tool === "wood") setTool("select");
  });
  const cancel = useStable((): void => {
    grip.current = null;
    setPath(null);
    door.leave();
  });
  const beginFront = useStable((event: HandEvent) => begin("front", event));
  const beginPlan = useStable((event: HandEvent) => begin("plan", event));
  const keys = useStable((event: KeyboardEvent): void => {
    if (event.key === "Escape") {
      cancel();
      select(null);
      return;
    }
    if (!target) return;
    const changes = pressed(kept, state.scene, target, event);
    if (changes === null) return;
    event.preventDefault();
    if (changes.length > 0) keep(changes.at(-1)!.name, changes);
  });
  const add = (made: readonly Change[], kind: Target["kind"], count: number): void => {
    if (made.length === 0) return;
    keep(made.at(-1)!.name, made);
    setChosen({ kind, index: count });
  };
  const addForm = useStable((changes: readonly Change[]) => add(changes, "piece", scene.pieces.length));
  const middle: Point2 = [state.scape.length / 2, state.scape.width / 2];
  const bound = [...(target?.kind === "piece" ? [target] : []), ...more].map((t) => t.index);

  return (
    <section className="board" aria-label="Drawing board">
      <div className="board-tools" role="toolbar" aria-label="Tools">
        {tools.map(([id, label, help]) => (
          <button
            key={id}
            type="button"
            aria-pressed={tool === id}
            className={tool === id ? "tool on" : "tool"}
            title={help}
            onClick={() => setTool(id)}
          >
            {label}
          </button>
        ))}
        <FormChooser plan={plan} raw={raw} onKeep={keep} />
      </div>
      <p className="board-help">
        <Words>{`${capital(tools.find(([id]) => id === tool)![2])}.`}</Words>
        {tool === "plant" && (
          <label className="board-species" htmlFor={speciesId}>
            species{" "}
            <input
              id={speciesId}
              list={namesId("plant")}
              value={species}
              autoComplete="off"
              aria-invalid={known ? undefined : true}
              onChange={(e) => setSpecies(e.target.value)}
            />
            {!known && (
              <span className="problem-word">
                {" "}
                not a plant known here{near.length > 0 ? `; did you mean ${near.join(" or ")}?` : ""}
              </span>
            )}
          </label>
        )}
        {tool === "ground" && (
          <span className="board-brush">
            {groundKinds.map(([kind, label]) => (
              <button
                key={kind}
                type="button"
                aria-pressed={brush.kind === kind}
                className={brush.kind === kind ? "on" : undefined}
                onClick={() => setBrush({ ...brush, kind })}
              >
                {label}
              </button>
            ))}
            <label>
              width{" "}
              <input
                type="range"
                min={20}
                max={Math.round(scape.length * 400)}
                value={Math.round(brush.radius * 1000)}
                onChange={(e) => setBrush({ ...brush, radius: Number(e.target.value) / 1000 })}
              />
            </label>
            <label>
              by{" "}
              <input
                type="range"
                min={1}
                max={40}
                value={Math.round(brush.strength * 1000)}
                onChange={(e) => setBrush({ ...brush, strength: Number(e.target.value) / 1000 })}
              />{" "}
              {Math.round(brush.strength * 1000)} mm
            </label>
          </span>
        )}
      </p>
      <div className="board-views">
        <div className="board-front">
          <div className="front-drawing" ref={leftBox}>
            <p className="board-switch" role="group" aria-label="View">
              <button
                type="button"
                aria-pressed={!solid}
                className={solid ? undefined : "on"}
                onClick={() => setSolid(false)}
              >
                from the front
              </button>{" "}
              /{" "}
              <button
                type="button"
                aria-pressed={solid}
                className={solid ? "on" : undefined}
                onClick={() => setSolid(true)}
              >
                in three dimensions
              </button>
            </p>
            {solid ? (
              <div className="board-solid">
                <Suspense fallback={<p className="waiting">Opening …</p>}>
                  <Room3d
                    scene={shownScene}
                    selected={target}
                    onSelect={(thing) => select(thing)}
                    onMove={(kind, index, at, phase) => {
                      const changes = moveTo(kept, { kind, index }, at.x, at.y);
                      if (phase === "cancel") door.leave();
                      else if (phase === "end") door.keep(changes);
                      else door.show(changes);
                    }}
                    theme={theme}
                    reducedMotion={matchMedia("(prefers-reduced-motion: reduce)").matches}
                    view="corner"
                    label="The scape in three dimensions; its things are listed below"
                  />
                </Suspense>
              </div>
            ) : (
              <FrontView
                scene={front}
                width={leftWidth}
                length={length}
                show={shown}
                target={target}
                onBegin={beginFront}
                onMove={move}
                onEnd={end}
                onCancel={cancel}
              />
            )}
          </div>
          {shown.balance && <OpenWaterLine scape={still.scape} />}
          {target && <Summary state={state} target={target} />}
          <details className="board-growth">
            <summary>Growth, week by week</summary>
            <Suspense fallback={<p className="waiting">Opening …</p>}>
              <GrowthPanel raw={raw} scape={still.scape} length={length} onShow={setGrown} />
            </Suspense>
          </details>
          <div className="board-things">
            <h2>On the board</h2>
            <Things
              scene={still.scene}
              scape={still.scape}
              target={target}
              more={more}
              onSelect={select}
              onKeyDown={keys}
            />
            <p className="things-add">
              <button
                type="button"
                className="link"
                onClick={() => add(addPiece(kept, "stone", middle), "piece", scene.pieces.length)}
              >
                add a stone
              </button>
              <button
                type="button"
                className="link"
                onClick={() => add(addPiece(kept, "wood", middle), "piece", scene.pieces.length)}
              >
                add wood
              </button>
              <button
                type="button"
                className="link"
                disabled={!known}
                onClick={() => add(addZone(kept, species, middle), "zone", scene.zones.length)}
              >
                plant {known?.name ?? "…"}
              </button>
              <button type="button" className="link" onClick={() => add(addLamp(kept), "lamp", scene.lamps.length)}>
                hang a lamp
              </button>
              {bound.length > 1 && (
                <button type="button" className="link" onClick={() => keep("grouped", group(kept, bound, true))}>
                  group these {bound.length}
                </button>
              )}
              {target?.kind === "piece" && plan.hardscape[target.index]?.group && (
                <button
                  type="button"
                  className="link"
                  onClick={() => {
                    const word = plan.hardscape[target.index]!.group;
                    keep(
                      "group parted",
                      group(
                        kept,
                        plan.hardscape.flatMap((p, i) => (p.group === word ? [i] : [])),
                        false,
                      ),
                    );
                  }}
                >
                  part the group
                </button>
              )}
            </p>
            <ImportPiece board={kept} onAdd={addForm} />
            {target && (
              <Inspector
                tank={tank}
                raw={raw}
                plan={plan}
                scape={still.scape}
                board={kept}
                target={target}
                onKeep={keep}
                onSelect={select}
              />
            )}
            <details className="board-keys">
              <summary>Keys of the thing in hand</summary>
              <dl>
                {keyHelp.map(([key, what]) => (
                  <div key={key}>
                    <dt>{key}</dt>
                    <dd>{what}</dd>
                  </div>
                ))}
              </dl>
            </details>
            <p className="hidden-text" role="status">
              {word}
            </p>
          </div>
          {findings.length + light.findings.length > 0 && (
            <section className="board-findings" aria-labelledby="board-findings-title">
              <h2 id="board-findings-title">What to look at</h2>
              <ol>
                {[...light.findings, ...findings].map((f) => (
                  <li key={f.id} className={`finding ${f.severity}`}>
                    <div className="finding-word">{f.severity === "caution" ? "Caution" : "Note"}</div>
                    <div>
                      <h3>
                        <Words>{`${f.title}.`}</Words>
                      </h3>
                      <p>
                        <Words>{f.reason}</Words>
                      </p>
                    </div>
                  </li>
                ))}
              </ol>
            </section>
          )}
        </div>
        <div className="board-plan">
          <p className="board-aids" role="group" aria-label="Shown on the drawings">
            {aids.map(([key, label]) => (
              <label key={key}>
                <input
                  type="checkbox"
                  checked={shown[key]}
                  onChange={(e) => setShown({ ...shown, [key]: e.target.checked })}
                />{" "}
                {label}
              </label>
            ))}
          </p>
          <div className="plan-drawing" ref={rightBox}>
            <PlanView
              scene={shownScene}
              width={rightWidth}
              length={length}
              show={shown}
              light={lightMap}
              target={target}
              draws={tool === "ground" || tool === "plant" || tool === "sand" || tool === "step"}
              path={path}
              onBegin={beginPlan}
              onMove={move}
              onEnd={end}
              onCancel={cancel}
            />
          </div>
          <LightPanel dimmers={dimmers} scape={still.scape} />
          <BillTable bill={bill} name={name} />
          <TakeAwayLine name={name} scape={still.scape} scene={still.scene} length={length} light={lightMap} />
        </div>
      </div>
    </section>
  );
}

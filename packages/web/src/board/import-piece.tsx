import "../styles/import.css";
import { plain, shown } from "@lentic/core/design";
import { stones, woods } from "@lentic/core/facts";
import { type Change, type HardscapeKind, pieceDensity } from "@lentic/core/plan";
import { type Board, type KnownLength, type OwnForm, ownPiece, sideLimits } from "@lentic/core/scape";
import { mostBytes } from "@lentic/core/solids";
import { parseQuantity } from "@lentic/core/units";
import { proxy, wrap } from "comlink";
import { memo, useEffect, useId, useRef, useState } from "react";
import type { Brought, MeshChoices, MeshWorker } from "../mesh-worker.ts";
import { lengthWriter } from "../parts/length.ts";

interface Work {
  readonly answer: Promise<Brought>;
  readonly stop: () => void;
}

/** Reads a file beside the page. Stopping ends the worker with all that it holds. */
function bring(file: File, choices: MeshChoices, progress: (percent: number) => void): Work {
  const worker = new Worker(new URL("../mesh-worker.ts", import.meta.url), { type: "module", name: "mesh" });
  const answer = new Promise<Brought>((resolve) => {
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      resolve({
        kind: "problem",
        message: "the reading broke off; the file may be too much for this browser's memory",
      });
    });
    wrap<MeshWorker>(worker)
      .bring(file, choices, proxy(progress))
      .then(resolve, (error: unknown) =>
        resolve({
          kind: "problem",
          message: `the reading broke off (${error instanceof Error ? error.message : error})`,
        }),
      );
  }).finally(() => worker.terminate());
  return { answer, stop: () => worker.terminate() };
}

type Step =
  | { readonly at: "choosing" }
  | { readonly at: "reading"; readonly percent: number }
  | { readonly at: "done"; readonly form: OwnForm }
  | { readonly at: "refused"; readonly message: string };

const sides: readonly KnownLength["side"][] = ["longest", "width", "breadth", "height"];
const sideWords: Readonly<Record<KnownLength["side"], string>> = {
  longest: "longest side",
  width: "width, left to right",
  breadth: "breadth, front to back",
  height: "height, foot to tip",
};

/** glTF fixes metres and which way is up; the other formats leave both open. */
const fixesUnits = (name: string): boolean => /\.(glb|gltf)$/i.test(name);

type Length = { readonly metres: number } | { readonly metres: null; readonly wrong: string };

/** A typed length, if it is one that a side of a piece may have. */
function readLength(text: string, units: Board["units"]): Length {
  const read = parseQuantity(text, { expect: "length" });
  if (!read.ok) return { metres: null, wrong: `${read.message}; allowed: ${read.allowed}` };
  const [smallest, largest] = sideLimits;
  if (read.si >= smallest && read.si <= largest) return { metres: read.si };
  const write = lengthWriter(units);
  return {
    metres: null,
    wrong: `${read.text} is no length of a piece; allowed: ${write(smallest)} to ${write(largest)}`,
  };
}

const megabytes = (bytes: number): string => `${(bytes / 1024 / 1024).toFixed(bytes < 10 * 1024 * 1024 ? 1 : 0)} MB`;

interface ImportPieceProps {
  readonly board: Board;
  readonly onAdd: (changes: readonly Change[]) => void;
}

/** An owner's own stone or wood from a scan or a model: chosen, sized, looked at, then put in the tank. */
export const ImportPiece = memo(function ImportPiece({ board, onAdd }: ImportPieceProps) {
  const { scape, units } = board;
  const [file, setFile] = useState<File | null>(null);
  const [kind, setKind] = useState<HardscapeKind>("stone");
  const [materials, setMaterials] = useState<Readonly<Record<HardscapeKind, string>>>(() => {
    const last = (k: HardscapeKind): string | undefined =>
      scape.plan.hardscape.findLast((piece) => piece.kind === k)?.material;
    return { stone: last("stone") ?? "slate", wood: last("wood") ?? "root wood" };
  });
  const [side, setSide] = useState<KnownLength["side"]>("longest");
  const [length, setLength] = useState("");
  const [up, setUp] = useState<"y" | "z">("z");
  const [closeWide, setCloseWide] = useState(false);
  const [step, setStep] = useState<Step>({ at: "choosing" });
  const work = useRef<Work | null>(null);
  const box = useRef<HTMLDetailsElement>(null);
  const picker = useRef<HTMLInputElement>(null);
  const id = useId();
  useEffect(() => () => work.current?.stop(), []);

  const material = materials[kind];
  const given = length.trim() === "" ? null : readLength(length, units);
  const open = file !== null && !fixesUnits(file.name);
  const ready = file !== null && step.at !== "reading" && (given === null ? !open : given.metres !== null);

  const stop = (): void => {
    work.current?.stop();
    work.current = null;
  };
  /** A form that was made from other choices is none of these. */
  const anew = (): void => {
    stop();
    setStep({ at: "choosing" });
  };
  const choose = (next: File | null): void => {
    anew();
    const tooLarge = next !== null && next.size > mostBytes;
    setFile(tooLarge ? null : next);
    if (tooLarge && picker.current) picker.current.value = "";
    if (tooLarge)
      setStep({
        at: "refused",
        message: `${next.name}: ${megabytes(next.size)}; allowed: up to ${megabytes(mostBytes)}. Simplify it first`,
      });
  };
  const read = async (): Promise<void> => {
    if (!file) return;
    stop();
    setStep({ at: "reading", percent: 0 });
    const known = given !== null && given.metres !== null ? { side, metres: given.metres } : null;
    const own = bring(file, { known, up, closeWide }, (percent) => {
      if (work.current === own) setStep({ at: "reading", percent });
    });
    work.current = own;
    const answer = await own.answer;
    if (work.current !== own) return;
    work.current = null;
    setStep(answer.kind === "done" ? { at: "done", form: answer.form } : { at: "refused", message: answer.message });
  };
  const put = (form: OwnForm): void => {
    onAdd(ownPiece(board, kind, form, [scape.length / 2, scape.width / 2], material));
    setFile(null);
    setStep({ at: "choosing" });
    setLength("");
    if (picker.current) picker.current.value = "";
    if (!box.current) return;
    box.current.open = false;
    box.current.querySelector("summary")?.focus();
  };

  return (
    <details className="import-piece" ref={box}>
      <summary>Bring in your own piece</summary>
      <div className="import-body">
        <p>
          A scan or a model of your own stone or wood: one closed surface, as an OBJ, STL or glTF file. It is read here
          in your browser and kept in the plan.
        </p>
        <label className="import-file" htmlFor={`${id}-file`}>
          <span>File</span>
          <input
            id={`${id}-file`}
            ref={picker}
            type="file"
            accept=".obj,.stl,.gltf,.glb"
            onChange={(e) => choose(e.target.files?.[0] ?? null)}
          />
        </label>
        <div className="import-row">
          <fieldset>
            <legend>Kind</legend>
            {(["stone", "wood"] as const).map((k) => (
              <label key={k} htmlFor={`${id}-${k}`}>
                <input
                  id={`${id}-${k}`}
                  type="radio"
                  name={`${id}-kind`}
                  checked={kind === k}
                  onChange={() => setKind(k)}
                />{" "}
                {k}
              </label>
            ))}
          </fieldset>
          <label htmlFor={`${id}-material`}>
            <span>Material</span>
            <select
              id={`${id}-material`}
              value={material}
              onChange={(e) => setMaterials({ ...materials, [kind]: e.target.value })}
            >
              {(kind === "stone" ? stones : woods).map((m) => (
                <option key={m.id}>{m.id}</option>
              ))}
            </select>
          </label>
        </div>
        <div className="import-row">
          <label htmlFor={`${id}-side`}>
            <span>Known length</span>
            <select
              id={`${id}-side`}
              value={side}
              onChange={(e) => {
                anew();
                setSide(e.target.value as KnownLength["side"]);
              }}
            >
              {sides.map((s) => (
                <option key={s} value={s}>
                  {sideWords[s]}
                </option>
              ))}
            </select>
          </label>
          <label htmlFor={`${id}-length`}>
            <span>is</span>
            <input
              id={`${id}-length`}
              className="import-length"
              value={length}
              placeholder={units === "us" ? "9 in" : "23 cm"}
              autoComplete="off"
              aria-invalid={given !== null && given.metres === null ? true : undefined}
              aria-describedby={`${id}-length-word`}
              onChange={(e) => {
                anew();
                setLength(e.target.value);
              }}
            />
          </label>
          <p id={`${id}-length-word`} className="import-word">
            {given !== null && given.metres === null
              ? given.wrong
              : open
                ? "This file has no unit of its own: measure one side of the piece."
                : "May be left empty for glTF, which is in metres."}
          </p>
        </div>
        {(file === null || open) && (
          <fieldset>
            <legend>Up in the file is</legend>
            {(["z", "y"] as const).map((axis) => (
              <label key={axis} htmlFor={`${id}-up-${axis}`}>
                <input
                  id={`${id}-up-${axis}`}
                  type="radio"
                  name={`${id}-up`}
                  checked={up === axis}
                  onChange={() => {
                    anew();
                    setUp(axis);
                  }}
                />{" "}
                {axis}
              </label>
            ))}
          </fieldset>
        )}
        <label className="import-check" htmlFor={`${id}-wide`}>
          <input
            id={`${id}-wide`}
            type="checkbox"
            checked={closeWide}
            onChange={(e) => {
              anew();
              setCloseWide(e.target.checked);
            }}
          />{" "}
          close a wide hole too, as under a piece that was scanned where it stood
        </label>
        <p className="import-acts">
          <button type="button" className="plain-button" disabled={!ready} onClick={() => void read()}>
            Read it
          </button>
          {step.at === "reading" && (
            <>
              <progress max={100} value={step.percent} aria-label="Reading" /> <span>{step.percent} %</span>
              <button type="button" className="plain-button" onClick={anew}>
                Cancel
              </button>
            </>
          )}
        </p>
        {step.at === "refused" && (
          <p className="problem" role="alert">
            {step.message}.
          </p>
        )}
        <div role="status">
          {step.at === "done" && <Result form={step.form} kind={kind} material={material} units={units} />}
        </div>
        {step.at === "done" && (
          <button type="button" className="plain-button" onClick={() => put(step.form)}>
            Put it in the tank
          </button>
        )}
      </div>
    </details>
  );
});

interface ResultProps {
  readonly form: OwnForm;
  readonly kind: HardscapeKind;
  readonly material: string;
  readonly units: Board["units"];
}

/** What was made of a file. */
function Result({ form, kind, material, units }: ResultProps) {
  const size = [form.width, form.breadth, form.height]
    .map((m) => (units === "us" ? plain(m / 0.0254, 1) : plain(1000 * m, 0)))
    .join(" × ");
  const litres = 1000 * form.volume;
  const volume = shown(litres, "L", litres < 1 ? 3 : 2, units);
  const kilograms = form.volume * pieceDensity({ kind, material });
  const mass = shown(kilograms, "kg", kilograms < 1 ? 2 : kilograms < 10 ? 1 : 0, units);
  return (
    <dl className="import-result">
      <dt>Size</dt>
      <dd>
        {size} {units === "us" ? "in" : "mm"} <small>width, breadth, height</small>
      </dd>
      <dt>Volume</dt>
      <dd>
        {volume.text} {volume.unit}
      </dd>
      <dt>Mass</dt>
      <dd>
        {mass.text} {mass.unit} <small>as {kind === "wood" ? `${material}, soaked` : material}</small>
      </dd>
      <dt>Triangles</dt>
      <dd>
        {form.kept.toLocaleString("en")} kept of {form.found.toLocaleString("en")}
      </dd>
      <dt>Done to it</dt>
      <dd>
        {form.said.length === 0 ? (
          "nothing: it was sound and in metres"
        ) : (
          <ul>
            {form.said.map((word) => (
              <li key={word}>{word}</li>
            ))}
          </ul>
        )}
      </dd>
    </dl>
  );
}

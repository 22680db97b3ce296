import "../styles/take-away.css";
import type { LightMap, ScapeScene, WrittenLength } from "@lentic/core/drawing";
import type { Scape } from "@lentic/core/scape";
import { useId, useState } from "react";
import { useSettings } from "../data/settings.ts";
import { fileName } from "../parts/file-name.ts";
import { Sheets } from "./sheets.tsx";
import type { Picture, SheetPicture } from "./take-away.ts";

interface TakeAwayProps {
  readonly name: string;
  readonly scape: Scape;
  readonly scene: ScapeScene;
  readonly length: (metres: number) => WrittenLength;
  /** null while the light is followed, or where there is none. */
  readonly light: LightMap | null;
}

const pictures: readonly (readonly [picture: Picture, label: string, file: string])[] = [
  ["front", "front elevation", "front"],
  ["plan", "plan", "plan"],
  ["light", "light map", "light"],
];

const [narrowest, widest] = [200, 8000];

function hand(blob: Blob, file: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = address;
  link.download = file;
  link.click();
  // the browser has taken hold of it once the click is over
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** What leaves the board: pictures, and the scene in three dimensions. */
export function TakeAwayLine({ name, scape, scene, length, light }: TakeAwayProps) {
  const { units } = useSettings();
  const [sheets, setSheets] = useState<readonly SheetPicture[] | null>(null);
  const [width, setWidth] = useState("1600");
  const [word, setWord] = useState("");
  const [busy, setBusy] = useState(false);
  const widthId = useId();
  const faultId = useId();
  const pixels = Number(width);
  const fits = Number.isInteger(pixels) && pixels >= narrowest && pixels <= widest;
  const own = fileName(name);
  const take = async (file: string, make: (way: typeof import("./take-away.ts")) => Blob | Promise<Blob>) => {
    setBusy(true);
    setWord(`${file} is being drawn`);
    try {
      hand(await make(await import("./take-away.ts")), file);
      setWord(`${file} taken away`);
    } catch (error) {
      setWord(`${file} could not be made: ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      setBusy(false);
    }
  };
  const paper = units === "us" ? "letter" : "a4";
  const lay = async () => {
    setBusy(true);
    setWord("the sheets are being drawn");
    try {
      const { sheetPictures } = await import("./take-away.ts");
      const date = new Date().toLocaleDateString(undefined, { dateStyle: "medium" });
      setSheets(await sheetPictures(scape, scene, { paper, units, date }));
      setWord("the sheets lie below");
    } catch (error) {
      setWord(`the sheets could not be drawn: ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      setBusy(false);
    }
  };
  const act = (file: string, kind: string, of: string, able: boolean, make: Parameters<typeof take>[1]) => (
    <button
      type="button"
      className="link"
      aria-label={`${of} as ${kind}`}
      disabled={!able || busy}
      onClick={() => void take(file, make)}
    >
      {kind}
    </button>
  );
  return (
    <section className="take-away" aria-labelledby={`${widthId}-title`}>
      <h2 id={`${widthId}-title`}>Take away</h2>
      <ul>
        {pictures.map(([picture, label, file]) => {
          const able = picture !== "light" || light !== null;
          const input = { scene, length, light, width: pixels };
          return (
            <li key={picture}>
              {label} {act(`${own}-${file}.svg`, "SVG", label, able && fits, (way) => way.svgFile(picture, input))}{" "}
              {act(`${own}-${file}.png`, "PNG", label, able && fits, (way) => way.pngFile(picture, input))}
              {!able && <small> once the light has been followed</small>}
            </li>
          );
        })}
        <li>
          in three dimensions{" "}
          {act(`${own}.glb`, "glTF (GLB)", "the scene in three dimensions", true, (way) => way.glbFile(scene, name))}
        </li>
        <li>
          to build by{" "}
          <button type="button" className="link" disabled={busy} onClick={() => void lay()}>
            sheets to print
          </button>
        </li>
        <li>
          <label htmlFor={widthId}>pictures</label>{" "}
          <input
            id={widthId}
            inputMode="numeric"
            value={width}
            aria-invalid={fits ? undefined : true}
            aria-describedby={fits ? undefined : faultId}
            onChange={(e) => setWidth(e.target.value.trim())}
          />{" "}
          px wide
        </li>
      </ul>
      {!fits && (
        <p id={faultId} className="problem-word">
          {width === "" ? "No width" : width} will not do as a width; allowed: whole px from {narrowest} to {widest}.
        </p>
      )}
      <p className="take-away-word" role="status">
        {word}
      </p>
      {sheets && <Sheets sheets={sheets} name={own} paper={paper} onClose={() => setSheets(null)} />}
    </section>
  );
}

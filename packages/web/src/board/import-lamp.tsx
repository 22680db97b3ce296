import "../styles/import.css";
import { plain } from "@lentic/core/design";
import { PHOTOMETRY_LIMITS, type PhotometryFault } from "@lentic/core/light";
import { type Change, lampsOf } from "@lentic/core/plan";
import { type Board, givePhotometry, type LampFigures, readLampFile, type Target } from "@lentic/core/scape";
import { useId, useMemo, useState } from "react";

interface ImportLampProps {
  readonly board: Board;
  readonly target: Target;
  readonly onKeep: (name: string, changes: readonly Change[]) => void;
}

interface Refused {
  readonly file: string;
  readonly faults: readonly (Omit<PhotometryFault, "line"> & { readonly line: number | null })[];
}

/** The photometric file of a lamp: what the one kept says, or a picker for one. */
export function ImportLamp({ board, target, onKeep }: ImportLampProps) {
  const [refused, setRefused] = useState<Refused | null>(null);
  const id = useId();
  const kept = lampsOf(board.scape.plan)[target.index]?.photometry ?? null;
  const read = useMemo(() => (kept === null ? null : readLampFile(kept)), [kept]);
  const give = (text: string | null): void => {
    const changes = givePhotometry(board, target, text);
    onKeep(changes.at(-1)!.name, changes);
  };
  const choose = async (file: File): Promise<void> => {
    setRefused(null);
    const most = PHOTOMETRY_LIMITS.characters;
    if (file.size > most) {
      const fault = { line: null, message: `the file holds ${file.size} bytes`, allowed: `up to ${most}` };
      setRefused({ file: file.name, faults: [fault] });
      return;
    }
    const text = await file.text().catch(() => null);
    if (text === null) {
      const fault = {
        line: null,
        message: "the file cannot be read: it was moved or changed",
        allowed: "choose it again",
      };
      setRefused({ file: file.name, faults: [fault] });
      return;
    }
    const found = readLampFile(text);
    if (found.ok) give(found.text);
    else setRefused({ file: file.name, faults: found.faults });
  };
  return (
    <section className="import-lamp" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>Photometric file</h3>
      {read?.ok && (
        <>
          <Figures figures={read.figures} />
          {read.notes.length > 0 && (
            <ul>
              {read.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          )}
        </>
      )}
      {read && !read.ok && <Faults file="the file in the plan" faults={read.faults} />}
      <p className="import-word">
        {kept === null
          ? "A file after LM-63 (.ies) says how the lamp spreads its light and how much there is; without one its beam angle and its label do."
          : "The beam is that of the file. Its lumens and watts count where no photons, lumens or power are typed."}
      </p>
      <label className="import-file" htmlFor={`${id}-file`}>
        <span>{kept === null ? "File" : "Another file"}</span>
        <input
          id={`${id}-file`}
          type="file"
          accept=".ies"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (file) void choose(file);
          }}
        />
      </label>
      {refused && <Faults file={refused.file} faults={refused.faults} />}
      {kept !== null && (
        <button type="button" className="link" onClick={() => give(null)}>
          remove the file
        </button>
      )}
    </section>
  );
}

function Faults({ file, faults }: Refused) {
  return (
    <div className="problem" role="alert">
      {file} is not taken:
      <ul>
        {faults.map((f) => (
          <li key={`${f.line} ${f.message}`}>
            {f.line !== null && `line ${f.line}: `}
            {f.message}; allowed: {f.allowed}
          </li>
        ))}
      </ul>
    </div>
  );
}

function Figures({ figures }: { readonly figures: LampFigures }) {
  const { lumens, watts, efficacy, beam, down, upwards, outputRatio } = figures;
  const [along, across] = beam ?? [0, 0];
  const same = Math.round(along) === Math.round(across);
  const percent = (share: number): string => `${plain(100 * share, 0)} %`;
  return (
    <dl className="import-result">
      <dt>Flux</dt>
      <dd>
        {plain(lumens, lumens < 100 ? 1 : 0)} lm{upwards > 0.005 && `, ${percent(upwards)} of it upwards`}
        {outputRatio !== null && <small> {percent(outputRatio)} of the light sources' rating</small>}
      </dd>
      <dt>Efficacy</dt>
      <dd>
        {watts === null || efficacy === null
          ? "the file gives no power"
          : `${plain(efficacy, 0)} lm/W at ${Number(watts.toPrecision(4))} W`}
      </dd>
      <dt>Beam</dt>
      <dd>
        {beam === null
          ? "it gives no light straight down"
          : `${plain(along, 0)}${same ? "" : ` by ${plain(across, 0)}`} deg at half intensity, ${plain(down, 0)} cd straight down`}
      </dd>
    </dl>
  );
}

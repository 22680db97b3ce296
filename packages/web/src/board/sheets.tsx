import "../styles/sheets.css";
import { useEffect, useMemo, useRef } from "react";
import { createPortal } from "react-dom";
import type { SheetPicture } from "./take-away.ts";

interface SheetsProps {
  readonly sheets: readonly SheetPicture[];
  /** Beginning of the files' names. */
  readonly name: string;
  readonly paper: "a4" | "letter";
  readonly onClose: () => void;
}

/** The sheets as they will lie in the printer: true to size on paper, nothing else of the page with them. */
export function Sheets({ sheets, name, paper, onClose }: SheetsProps) {
  const addresses = useMemo(() => sheets.map(({ svg }) => URL.createObjectURL(svg)), [sheets]);
  const top = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    top.current?.focus();
    return () => {
      for (const address of addresses) URL.revokeObjectURL(address);
    };
  }, [addresses]);
  return createPortal(
    <section className={`sheets ${paper}`} aria-labelledby="sheets-title">
      <h2 id="sheets-title" ref={top} tabIndex={-1}>
        Sheets to build by
      </h2>
      <p className="sheets-acts">
        <button type="button" className="link" onClick={() => window.print()}>
          print
        </button>
        <button type="button" className="link" onClick={onClose}>
          close
        </button>
        <span>
          {paper === "a4" ? "A4" : "US Letter"}, at 100 %, without margins of the printer's own. Hold the bar against a
          ruler.
        </span>
      </p>
      <ol>
        {sheets.map(({ title }, k) => (
          <li key={addresses[k]}>
            <img src={addresses[k]} alt={`Sheet ${k + 1} of ${sheets.length}: ${title}`} />
            <a className="link" href={addresses[k]} download={`${name}-sheet-${k + 1}.svg`}>
              Save sheet {k + 1} (SVG)
            </a>
          </li>
        ))}
      </ol>
    </section>,
    document.body,
  );
}

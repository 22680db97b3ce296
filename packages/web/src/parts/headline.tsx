import type { DayReport, Remedy } from "@lentic/core/design";
import { Words } from "./words.tsx";

/** The leading sentence; its remedies are underlined in the drag colour, and choosing one tries it at once. */
export function Headline(p: {
  headline: DayReport["headline"];
  aside: string;
  remedies: readonly Remedy[];
  onTry: (remedy: Remedy) => void;
}) {
  const long = p.headline.reduce((n, part) => n + part.words.length, 0) > 150;
  return (
    <div className="say">
      <h1 className={long ? "long" : undefined}>
        {p.headline.map((part) => {
          if (!("remedy" in part))
            return (
              <span key={part.words}>
                <Words>{part.words}</Words>
              </span>
            );
          const remedy = p.remedies.find((r) => r.id === part.remedy);
          return remedy ? (
            // a button element would be one block in the line and push the comma after it to the next
            <span
              role="button"
              tabIndex={0}
              className="try"
              key={part.words}
              onClick={() => p.onTry(remedy)}
              onKeyDown={(event) => {
                if (event.key !== "Enter" && event.key !== " ") return;
                event.preventDefault();
                p.onTry(remedy);
              }}
            >
              {part.words}
            </span>
          ) : (
            <span key={part.words}>{part.words}</span>
          );
        })}
      </h1>
      <p className="then">
        <Words>{p.aside}</Words>
      </p>
    </div>
  );
}

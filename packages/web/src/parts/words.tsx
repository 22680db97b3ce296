import { Fragment, type ReactNode } from "react";

/** Formulas with their small figures, CO2 and O2 as printed; words that stay whole. */
export function Words({ children }: { children: string }): ReactNode {
  // "lights-on" must not break after its hyphen
  const parts = children.replace(/lights-o/g, "lights\u2011o").split(/(CO2|O2)\b/);
  return parts.map((part, i) =>
    part === "CO2" ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: parts of one fixed sentence
      <Fragment key={i}>
        CO<sub>2</sub>
      </Fragment>
    ) : part === "O2" ? (
      // biome-ignore lint/suspicious/noArrayIndexKey: parts of one fixed sentence
      <Fragment key={i}>
        O<sub>2</sub>
      </Fragment>
    ) : (
      part
    ),
  );
}

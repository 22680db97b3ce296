import type { Fault } from "@lentic/core/plan";

/** What is wrong with a plan: where, what, and what is allowed. */
export function Faults({ title, faults }: { title: string; faults: readonly Fault[] }) {
  return (
    <section className="faults" role="alert">
      <h2>{title}</h2>
      <ul>
        {faults.map((f) => (
          <li key={`${f.path} ${f.line} ${f.message}`}>
            {f.line > 0 && (
              <span className="fault-place">
                line {f.line}, column {f.column}
              </span>
            )}{" "}
            <code>{f.path || "the file"}</code> {f.message}. <span className="fault-allowed">{f.allowed}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

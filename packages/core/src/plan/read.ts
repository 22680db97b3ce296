import { sameJson, valueAt } from "./changes.ts";
import { notes } from "./cross-checks.ts";
import { faultOf, type Issue } from "./issue.ts";
import { withAlternative } from "./light-reading.ts";
import { migrate } from "./migrate.ts";
import { type Fault, isMap, type Path, type RawPlan, type Reading } from "./plan.ts";
import { offsetOf, type PlanText, readText } from "./plan-text.ts";
import { resolve } from "./resolve.ts";
import { closest } from "./suggest.ts";

/** An issue of a patched plan, told where the patch stands if the patch is what brought it. */
function inPatch(issue: Issue, name: string, patch: RawPlan): Issue {
  let depth = 0;
  while (depth < issue.path.length && valueAt(patch, issue.path.slice(0, depth + 1)) !== undefined) depth += 1;
  // A patch replaces lists whole, so a list position holds in the patch as in the plan.
  const path: Path = ["alternatives", name, ...(depth === 0 ? [] : issue.path)];
  const message = depth === 0 ? `in this alternative, ${issue.path.join(".")}: ${issue.message}` : issue.message;
  return { ...issue, path, message };
}

/** Issues that an alternative adds to those of the plan it stands on. */
function alternativeIssues(raw: RawPlan, name: string, patch: RawPlan, known: readonly Issue[]): readonly Issue[] {
  return resolve(withAlternative(raw, patch))
    .issues.filter((issue) => !known.some((k) => sameJson(k, issue)))
    .map((issue) => inPatch(issue, name, patch));
}

/** The patch of a named alternative; undefined when the plan has none of that name. */
function patchOf(raw: RawPlan, name: string): RawPlan | undefined {
  const all = raw.alternatives;
  const patch = isMap(all) && Object.hasOwn(all, name) ? all[name] : undefined;
  return isMap(patch) ? patch : undefined;
}

function placed(text: PlanText, issue: Issue): Fault {
  return faultOf(issue, text.position(offsetOf(text.doc, issue.path, issue.at)));
}

function inOrder(faults: readonly Fault[]): readonly Fault[] {
  return [...faults].sort((a, b) => a.line - b.line || a.column - b.column);
}

/**
 * Reads a plan file, YAML 1.2 or JSON, and fills in every default. With `alternative`, the named patch is applied first.
 * Never throws: either the plan, or every fault at once with its place in the text. The alternatives not asked for are
 * tried too, so that a plan that reads has alternatives that read.
 */
export function readPlan(text: string, options: { readonly alternative?: string } = {}): Reading {
  const found = readText(text);
  if (!found.ok) return found;
  const migrated = migrate(found.raw);
  if ("message" in migrated) {
    const at = found.position(offsetOf(found.doc, ["lentic"], "value"));
    return { ok: false, faults: inOrder([...found.faults, { ...migrated, ...at }]) };
  }
  const { raw } = migrated;
  const base = resolve(raw);
  const issues: Issue[] = [...base.issues];
  const names = isMap(raw.alternatives) ? Object.keys(raw.alternatives) : [];
  for (const name of names) {
    const patch = patchOf(raw, name);
    if (patch) issues.push(...alternativeIssues(raw, name, patch, base.issues));
  }
  const { alternative } = options;
  const chosen = alternative === undefined ? undefined : patchOf(raw, alternative);
  if (alternative !== undefined && !chosen && !names.includes(alternative)) {
    const near = closest(alternative, names);
    const hint = near === undefined ? "" : `; did you mean ${near}?`;
    const allowed = names.length > 0 ? names.join(", ") : "no alternative: the plan names none";
    issues.push({
      path: ["alternatives"],
      at: "key",
      message: `there is no alternative named ${alternative}${hint}`,
      allowed,
    });
  }
  const faults = [...found.faults, ...issues.map((issue) => placed(found, issue))];
  if (faults.length > 0) return { ok: false, faults: inOrder(faults) };
  const usedRaw = chosen ? withAlternative(raw, chosen) : raw;
  const { plan } = chosen ? resolve(usedRaw) : base;
  return { ok: true, plan, raw: usedRaw, notes: notes(plan).map((issue) => placed(found, issue)) };
}

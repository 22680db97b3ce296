import type { Change, Fault, RawPlan } from "@lentic/core/plan";

export interface TankSummary {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  /** Where it stands; null where the plan does not say. */
  readonly place: string | null;
  readonly revision: number;
  readonly updatedAt: string;
}

export interface TankRecord extends TankSummary {
  readonly text: string;
  /** The plan as it reads; null when it does not. */
  readonly raw: RawPlan | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
}

export interface Example {
  readonly id: string;
  readonly name: string;
  readonly about: string;
}

export type Outcome =
  | { readonly kind: "kept"; readonly tank: TankRecord }
  | { readonly kind: "stale"; readonly tank: TankRecord }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] }
  | { readonly kind: "missing" }
  /** The server could not be reached; nothing is lost, try again. */
  | { readonly kind: "offline" };

async function ask(path: string, method: "GET" | "POST" | "DELETE", body?: unknown): Promise<Response | null> {
  try {
    return await fetch(path, {
      method,
      ...(body === undefined ? {} : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
    });
  } catch {
    return null;
  }
}

async function outcome(response: Response | null): Promise<Outcome> {
  if (!response || response.status >= 500) return { kind: "offline" };
  if (response.status === 404) return { kind: "missing" };
  const data = (await response.json()) as { tank?: TankRecord; faults?: readonly Fault[] } & TankRecord;
  if (response.ok) return { kind: "kept", tank: data };
  if (response.status === 409 && data.tank) return { kind: "stale", tank: data.tank };
  if (data.faults) return { kind: "faults", faults: data.faults };
  return { kind: "offline" };
}

export async function listTanks(): Promise<readonly TankSummary[] | null> {
  const response = await ask("/api/tanks", "GET");
  return response?.ok ? ((await response.json()) as TankSummary[]) : null;
}

export async function listExamples(): Promise<readonly Example[] | null> {
  const response = await ask("/api/examples", "GET");
  return response?.ok ? ((await response.json()) as Example[]) : null;
}

export async function exampleText(id: string): Promise<string | null> {
  const response = await ask(`/api/examples/${encodeURIComponent(id)}`, "GET");
  return response?.ok ? ((await response.json()) as { text: string }).text : null;
}

export const loadTank = async (id: string): Promise<Outcome> =>
  outcome(await ask(`/api/tanks/${encodeURIComponent(id)}`, "GET"));

export const createTank = async (text: string, key: string): Promise<Outcome> =>
  outcome(await ask("/api/tanks", "POST", { text, key }));

export const keepChanges = async (
  id: string,
  base: number,
  name: string,
  changes: readonly Change[],
  key: string,
): Promise<Outcome> =>
  outcome(await ask(`/api/tanks/${encodeURIComponent(id)}/changes`, "POST", { base, name, changes, key }));

export const keepText = async (id: string, base: number, name: string, text: string, key: string): Promise<Outcome> =>
  outcome(await ask(`/api/tanks/${encodeURIComponent(id)}/text`, "POST", { base, name, text, key }));

export const stepBack = async (id: string, base: number, key: string): Promise<Outcome> =>
  outcome(await ask(`/api/tanks/${encodeURIComponent(id)}/undo`, "POST", { base, key }));

export const stepForward = async (id: string, base: number, key: string): Promise<Outcome> =>
  outcome(await ask(`/api/tanks/${encodeURIComponent(id)}/redo`, "POST", { base, key }));

export async function removeTank(id: string): Promise<boolean> {
  const response = await ask(`/api/tanks/${encodeURIComponent(id)}`, "DELETE");
  return response?.ok ?? false;
}

export async function restoreTank(id: string): Promise<boolean> {
  const response = await ask(`/api/tanks/${encodeURIComponent(id)}/restore`, "POST", {});
  return response?.ok ?? false;
}

export interface Revision {
  readonly revision: number;
  readonly name: string;
  readonly at: string;
}

export async function revisions(id: string): Promise<readonly Revision[] | null> {
  const response = await ask(`/api/tanks/${encodeURIComponent(id)}/history`, "GET");
  return response?.ok ? ((await response.json()) as Revision[]) : null;
}

export async function revisionText(id: string, revision: number): Promise<string | null> {
  const response = await ask(`/api/tanks/${encodeURIComponent(id)}/revisions/${revision}`, "GET");
  return response?.ok ? ((await response.json()) as { text: string }).text : null;
}

export { formChanges } from "./changes.ts";
export { forms } from "./forms.ts";
export { layForm } from "./lay.ts";
export type { FormInput, FormName, FormParts } from "./types.ts";

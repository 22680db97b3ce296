export { type PaperName, paperSizes } from "./paper.ts";
export { type Sheet, type SheetOptions, sheetsOf, whitePaper } from "./sheets.ts";

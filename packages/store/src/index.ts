export { StoreError } from "./open.ts";
export {
  type Outcome,
  openStore,
  type RevisionRecord,
  type RevisionSummary,
  type Store,
  type TankRecord,
  type TankSummary,
} from "./store.ts";

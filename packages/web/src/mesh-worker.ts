import { formFromMesh, type KnownLength, type OwnForm } from "@lentic/core/scape";
import { MeshFault, readMesh } from "@lentic/core/solids";
import { expose } from "comlink";

/** What the owner says of a file that it cannot say itself. */
export interface MeshChoices {
  readonly known: KnownLength | null;
  readonly up: "y" | "z";
  readonly closeWide: boolean;
}

/** What came of a file. */
export type Brought =
  | { readonly kind: "done"; readonly form: OwnForm }
  /** Where and why it cannot be taken, and what would be. */
  | { readonly kind: "problem"; readonly message: string };

/** Share of the work that is reading; the rest is mending and thinning. As measured on files of half a million triangles. */
const reading = 0.1;

const api = {
  /** Makes a piece's form of a file, beside the page. @param progress told the whole percents done */
  async bring(
    file: File,
    { known, up, closeWide }: MeshChoices,
    progress: (percent: number) => void,
  ): Promise<Brought> {
    let told = -1;
    const tell = (share: number): void => {
      const percent = Math.floor(100 * share);
      if (percent > told) progress(percent);
      told = Math.max(told, percent);
    };
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const read = await readMesh(bytes, file.name, { onProgress: (share) => tell(reading * share) });
      const form = await formFromMesh(read, {
        ...(known ? { known } : {}),
        up,
        closeWide,
        onProgress: (share) => tell(reading + (1 - reading) * share),
      });
      return { kind: "done", form };
    } catch (error) {
      const problem = (message: string): Brought => ({ kind: "problem", message: `${file.name}${message}` });
      if (error instanceof MeshFault)
        return problem(error.where === "file" ? error.message.slice("file".length) : `, ${error.message}`);
      if (error instanceof RangeError) return problem(`: ${error.message}`);
      // the browser's own word for a file that is no longer there as it was chosen
      if (error instanceof DOMException) return problem(": it was moved or changed; choose it again");
      throw error;
    }
  },
};

export type MeshWorker = typeof api;

expose(api);

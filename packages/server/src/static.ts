import { readdir, readFile } from "node:fs/promises";
import { extname, join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".woff2": "font/woff2",
  ".woff": "font/woff",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".txt": "text/plain; charset=utf-8",
  ".ico": "image/x-icon",
};
const compressible = /javascript|css|html|svg|json|plain/;
const shrink = { br: promisify(brotliCompress), gzip: promisify(gzip) } as const;

interface Asset {
  readonly body: Buffer;
  readonly type: string;
  readonly hashed: boolean;
  readonly packed: Map<"br" | "gzip", Promise<Buffer>>;
}

/** The built web app, listed once: only files that were there at the start can be asked for, so no path can climb out. */
export class StaticFiles {
  private readonly files = new Map<string, string>();
  private readonly loaded = new Map<string, Promise<Asset>>();
  readonly ready: Promise<void>;

  constructor(root: string | null) {
    this.ready = root === null ? Promise.resolve() : this.list(root);
  }

  private async list(root: string): Promise<void> {
    try {
      for (const entry of await readdir(root, { recursive: true, withFileTypes: true })) {
        if (!entry.isFile()) continue;
        const folder = (entry.parentPath ?? entry.path).slice(root.length).split(/[\\/]/).filter(Boolean);
        this.files.set(`/${[...folder, entry.name].join("/")}`, join(entry.parentPath ?? entry.path, entry.name));
      }
    } catch {
      this.files.clear();
    }
  }

  private load(path: string): Promise<Asset> | null {
    const file = this.files.get(path);
    if (file === undefined) return null;
    let asset = this.loaded.get(path);
    if (!asset) {
      asset = readFile(file).then((body) => ({
        body,
        type: types[extname(file)] ?? "application/octet-stream",
        hashed: path.startsWith("/assets/"),
        packed: new Map(),
      }));
      this.loaded.set(path, asset);
    }
    return asset;
  }

  /** The file at a path, or null. */
  async respond(path: string, accepts: string): Promise<Response | null> {
    await this.ready;
    const asset = await this.load(path);
    if (!asset) return null;
    const headers = new Headers({
      "content-type": asset.type,
      // an asset's name holds its content's hash; everything else is asked for anew
      "cache-control": asset.hashed ? "public, max-age=31536000, immutable" : "no-cache",
      vary: "accept-encoding",
    });
    const way =
      compressible.test(asset.type) && asset.body.length > 1400
        ? /\bbr\b/.test(accepts)
          ? "br"
          : /\bgzip\b/.test(accepts)
            ? "gzip"
            : null
        : null;
    if (way === null) return new Response(new Uint8Array(asset.body), { headers });
    let packed = asset.packed.get(way);
    if (!packed) {
      packed =
        way === "br"
          ? shrink.br(asset.body, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } })
          : shrink.gzip(asset.body, { level: 9 });
      asset.packed.set(way, packed);
    }
    headers.set("content-encoding", way);
    return new Response(new Uint8Array(await packed), { headers });
  }
}

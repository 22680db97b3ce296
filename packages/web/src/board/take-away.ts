/** Files made of the board: pictures with their letters within, and the scene in three dimensions. */

import serifItalic from "@fontsource/source-serif-4/files/source-serif-4-latin-400-italic.woff2?url";
import serif from "@fontsource/source-serif-4/files/source-serif-4-latin-400-normal.woff2?url";
import serifBold from "@fontsource/source-serif-4/files/source-serif-4-latin-600-normal.woff2?url";
import sans from "@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2?url";
import {
  type DrawingNode,
  elevationDrawing,
  type LightMap,
  planDrawing,
  type ScapeScene,
  standaloneSvg,
  type WrittenLength,
} from "@lentic/core/drawing";
import { scapeGlb } from "@lentic/core/model3d";
import type { Scape } from "@lentic/core/scape";
import { type SheetOptions, sheetsOf, whitePaper } from "@lentic/core/sheets";

/** What can be drawn. */
export type Picture = "front" | "plan" | "light";

export interface PictureInput {
  readonly scene: ScapeScene;
  readonly length: (metres: number) => WrittenLength;
  readonly light: LightMap | null;
  /** px; of an SVG the size at which it opens. */
  readonly width: number;
}

/** Width at which a drawing is laid out, px; a picture of another width is the same enlarged. */
const laidOut: Readonly<Record<Picture, number>> = { front: 900, plan: 760, light: 760 };

const faces = [
  { family: "Source Serif 4", weight: "600", style: "normal", file: serifBold },
  { family: "Source Sans 3", weight: "200 900", style: "normal", file: sans },
  { family: "Source Serif 4", weight: "400", style: "normal", file: serif },
  { family: "Source Serif 4", weight: "400", style: "italic", file: serifItalic },
] as const;

let letters: Promise<string> | null = null;

async function base64(file: string): Promise<string> {
  const answer = await fetch(file);
  if (!answer.ok) throw new Error(`the letters of the drawing could not be fetched (${answer.status})`);
  let text = "";
  for (const byte of new Uint8Array(await answer.arrayBuffer())) text += String.fromCharCode(byte);
  return btoa(text);
}

/** Rules that bring the letters with them; fetched from this machine once. */
function fontRules(): Promise<string> {
  letters ??= Promise.all(
    faces.map(
      async ({ family, weight, style, file }) =>
        `@font-face{font-family:"${family}";font-weight:${weight};font-style:${style};src:url(data:font/woff2;base64,${await base64(file)}) format("woff2")}`,
    ),
  ).then((rules) => rules.join(""));
  // a failure is not kept: the next press tries again
  letters.catch(() => {
    letters = null;
  });
  return letters;
}

function drawn(picture: Picture, { scene, length, light }: PictureInput): { node: DrawingNode; w: number; h: number } {
  const width = laidOut[picture];
  const made =
    picture === "front"
      ? elevationDrawing(scene, { width, length })
      : picture === "plan"
        ? planDrawing(scene, { width, length, show: { names: true, light: false } })
        : planDrawing(scene, { width, length, light, show: { names: true, planting: false, height: false } });
  return { node: made.node, w: made.width, h: made.height };
}

/** A picture as SVG, its letters within. */
export async function svgFile(picture: Picture, input: PictureInput): Promise<Blob> {
  const { node, w, h } = drawn(picture, input);
  const size = [input.width, Math.round((input.width * h) / w)] as const;
  return new Blob([standaloneSvg(node, { css: await fontRules(), size })], { type: "image/svg+xml" });
}

/** Room under a picture for a letter of each face, px of the drawing; it is cut off again. */
const foot = 24;

/** The drawing with a letter of each face under it, by which it is seen whether the letters have come. */
function withFoot(node: DrawingNode, w: number, h: number): DrawingNode {
  const letter = ({ family, weight, style }: (typeof faces)[number], k: number): DrawingNode => ({
    tag: "text",
    attributes: {
      x: 12 + 40 * k,
      y: h + 18,
      "font-family": family,
      "font-weight": weight === "600" ? 600 : 400,
      "font-style": style,
      "font-size": 16,
      fill: "#000",
    },
    children: ["M"],
  });
  return {
    ...node,
    attributes: { ...node.attributes, viewBox: `0 0 ${w} ${h + foot}` },
    children: [...(node.children ?? []), ...faces.map(letter)],
  };
}

/** Letters within a picture are read after the picture itself: waits for them, and no longer than this, ms. */
const longestWait = 8000;

async function lettersIn(image: HTMLImageElement, scale: number, h: number): Promise<boolean> {
  const probe = document.createElement("canvas");
  [probe.width, probe.height] = [40 * faces.length, foot];
  const pen = probe.getContext("2d", { willReadFrequently: true });
  if (!pen) return false;
  for (const end = performance.now() + longestWait; performance.now() < end; ) {
    pen.clearRect(0, 0, probe.width, probe.height);
    pen.drawImage(image, 0, h * scale, probe.width * scale, foot * scale, 0, 0, probe.width, foot);
    const inked = faces.map((_, k) => {
      const { data } = pen.getImageData(40 * k, 0, 40, foot);
      return data.some((value, at) => at % 4 === 0 && value < 110);
    });
    if (inked.every(Boolean)) return true;
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
  return false;
}

/** The same in pixels. @throws Error in words where the browser cannot draw it */
export async function pngFile(picture: Picture, input: PictureInput): Promise<Blob> {
  const { node, w, h } = drawn(picture, input);
  const scale = input.width / w;
  const size: [number, number] = [input.width, Math.round(h * scale)];
  const css = await fontRules();
  const whole = [input.width, Math.round((h + foot) * scale)] as const;
  const text = standaloneSvg(withFoot(node, w, h), { css, size: whole });
  const address = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    if (!(await lettersIn(image, scale, h))) throw new Error("its letters did not come; the SVG has them within");
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = size;
    const pen = canvas.getContext("2d");
    if (!pen) throw new Error("this browser gives no room to draw the picture");
    pen.drawImage(image, 0, 0, ...size, 0, 0, ...size);
    return await new Promise<Blob>((resolve, reject) => {
      canvas.toBlob((blob) => {
        if (blob) resolve(blob);
        else reject(new Error(`${size[0]} x ${size[1]} px is more than this browser can hold`));
      }, "image/png");
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** The whole scape as binary glTF 2.0. */
export const glbFile = (scene: ScapeScene, name: string): Blob =>
  new Blob([scapeGlb(scene, name) as Uint8Array<ArrayBuffer>], { type: "model/gltf-binary" });

/** A sheet of paper as a picture with its letters within. */
export interface SheetPicture {
  readonly title: string;
  readonly svg: Blob;
}

/** The sheets to build by. @throws RangeError for a tank that fits on none */
export async function sheetPictures(
  scape: Scape,
  scene: ScapeScene,
  options: SheetOptions,
): Promise<readonly SheetPicture[]> {
  const css = whitePaper + (await fontRules());
  return sheetsOf(scape, scene, options).map(({ title, node }) => ({
    title,
    svg: new Blob([standaloneSvg(node, { css })], { type: "image/svg+xml" }),
  }));
}

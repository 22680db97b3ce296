/** Where the tank stands on the page, in px, and at which scale. It depends on the tank and the page, never on figures. */
import { type Box, clamp } from "./geometry.ts";
import type { DrawnScene } from "./scene.ts";
import { fitted, numberAndUnit, textWidth, wrapped } from "./text.ts";

export interface SectionOptions {
  /** Width of the page, px: 240 to 2400, usually 720. */
  readonly width?: number;
  /** Phone: figures in a list of their own below, fewer details. */
  readonly compact?: boolean;
  /** Writes a length given in m, with its unit. */
  readonly length?: (metres: number) => string;
}

export interface Frame {
  readonly width: number;
  readonly compact: boolean;
  /** px per m. */
  readonly scale: number;
  /** Outer edges of the glass. */
  readonly outer: Box;
  /** Inner faces of the panes, the floor, and the rim. */
  readonly inner: Box;
  /** Page y of the calm water surface. */
  readonly surface: number;
  /** Width kept right of the tank for the heights of water and ground. */
  readonly numbers: number;
  /** Left edge of the column of figures, and the width of its text. */
  readonly column: number;
  readonly columnWidth: number;
  /** How far pipes stick out to the left of the glass. */
  readonly reach: number;
  /** Underside of the lamp, its thickness, and whether the gap above the rim had to be shortened. */
  readonly lamp: { readonly under: number; readonly thick: number; readonly shortened: boolean };
  /**
   * The lamp's caption: what the plan says in bold, then its height over the rim; on one line where there is room.
   * It stands over the lamp, between the cables where these are far enough apart; beside the cable of a pendant.
   */
  readonly caption: Caption;
  /** Where the row under the tank begins: first baseline, left and right end. */
  readonly strip: { readonly baseline: number; readonly left: number; readonly right: number };
}

const LAMP_THICKNESS = { bar: 0.014, panel: 0.026, tube: 0.03, pendant: 0.09 } as const;
/** Most that a lamp's gap above the rim takes on the page, px. */
const GAP_LIMIT = 150;

export const millimetres = (metres: number): string => `${Math.round(metres * 1000)} mm`;

export function frameOf(
  scene: DrawnScene,
  { width = 720, compact = false, length = millimetres }: SectionOptions,
): Frame {
  const page = clamp(Number.isFinite(width) ? width : 720, 240, 2400);
  const { tank, lamp } = scene;
  const overRim = Boolean(scene.pipes?.outlet || scene.pipes?.intake || scene.diffuser);
  const reach = compact ? (overRim ? 24 : 8) : 30;
  const columnWidth = compact ? 0 : clamp(page * 0.147, 92, 150);
  const leftMargin = compact ? Math.max(reach + 6, scene.layers.length > 0 ? 32 : 0) : columnWidth + reach + 10;
  // Right of the tank stand the heights of water and ground, then the line of the tank's own height.
  const corners = ["frontRight", "backRight"] as const;
  const heights = corners.map((c) => scene.layers.reduce((sum, layer) => sum + layer[c], 0));
  const numbers = Math.min(
    34,
    Math.max(17, ...[tank.waterLine, ...heights].map((m) => textWidth(numberAndUnit(length(m))[0], 11.5))),
  );
  const rightMargin = 22 + numbers;
  const room = page - leftMargin - rightMargin;
  const scale = Math.min(room / tank.length, (page * (compact ? 0.9 : 0.56)) / tank.height);
  const slack = room - tank.length * scale;
  const left = leftMargin + slack / 2;

  const thick = lamp ? clamp(LAMP_THICKNESS[lamp.kind] * scale, 8, lamp.kind === "pendant" ? 64 : 20) : 0;
  const lid = tank.cover === "lid" ? 10 : 0;
  const gap = lamp ? Math.min(Math.max(lamp.aboveRim * scale, lid), GAP_LIMIT) : 0;
  const pipesTop = overRim ? 44 : 0;
  const middle = left + (tank.length * scale) / 2;
  const caption = captionOf(scene, length, {
    left: middle - (left - reach + 5),
    right: page - 6 - middle,
    between: lamp ? Math.min(lamp.length * scale, tank.length * scale) * 0.66 - 34 : 0,
    hung: gap >= 26,
  });
  const head = lamp
    ? Math.max(gap + thick + caption.lift + caption.lines.length * 15 + 13, pipesTop)
    : Math.max(pipesTop, lid + 22, 22);
  const rim = head + keyRows(scene.plants.length, tank.length * scale, tank.height * scale) * KEY_PITCH;

  const outer: Box = {
    left,
    top: rim,
    right: left + tank.length * scale,
    bottom: rim + tank.height * scale,
  };
  const pane = Math.max(tank.glass * scale, 2.5);
  const inner: Box = {
    left: outer.left + pane,
    top: rim,
    right: outer.right - pane,
    bottom: outer.bottom - Math.max(tank.base * scale, 2.5),
  };
  const innerScale = (inner.bottom - inner.top) / scene.insideHeight;
  const stripRight = page - 6;
  const stripLeft = compact ? 10 : clamp(inner.left, 10, Math.max(10, stripRight - 560));
  return {
    width: page,
    compact,
    scale,
    outer,
    inner,
    surface: inner.bottom - tank.waterLine * innerScale,
    numbers,
    column: left - leftMargin + 10,
    columnWidth,
    reach,
    caption,
    lamp: { under: rim - gap, thick, shortened: lamp !== undefined && lamp.aboveRim * scale > GAP_LIMIT },
    strip: { baseline: outer.bottom + (compact ? 26 : 27), left: stripLeft, right: stripRight },
  };
}

/** Size of the caption's type, px. */
export const CAPTION_SIZE = 12;

interface Caption {
  readonly lines: readonly { readonly bold: string; readonly plain: string; readonly width: number }[];
  /** How far the last baseline stands over the lamp. */
  readonly lift: number;
  /** Whether it stands between the cables. */
  readonly between: boolean;
}

interface CaptionRoom {
  /** From the middle of the tank to either side. */
  readonly left: number;
  readonly right: number;
  readonly between: number;
  readonly hung: boolean;
}

/** A key number with the room round it, px. */
const KEY_PITCH = 19;

/** Rows that the key numbers need over a tank drawn so small that they do not find room in it. */
function keyRows(plants: number, wide: number, high: number): number {
  const row = Math.max(1, Math.floor(wide / KEY_PITCH) - 1);
  const inside = row * Math.max(0, Math.floor(high / KEY_PITCH) - 1);
  return Math.ceil(Math.max(0, plants - inside * 0.6) / row);
}

function captionOf(scene: DrawnScene, length: (metres: number) => string, room: CaptionRoom): Caption {
  if (!scene.lamp) return { lines: [], lift: 0, between: false };
  const plain = `${length(scene.lamp.aboveRim)} over the rim`;
  const bold = scene.lamp.caption.trim();
  const pendant = scene.lamp.kind === "pendant";
  const available = pendant ? room.right - 8 : 2 * Math.min(room.left, room.right);
  const plainWidth = textWidth(plain, CAPTION_SIZE);
  const together = textWidth(`${bold}, `, CAPTION_SIZE, "bold") + plainWidth;
  const lines =
    bold === ""
      ? [{ bold: "", plain: fitted(plain, CAPTION_SIZE, available), width: Math.min(plainWidth, available) }]
      : together <= available
        ? [{ bold: `${bold},`, plain, width: together }]
        : [
            // Bold type runs wider than the plain by which lines are broken.
            ...wrapped(bold, CAPTION_SIZE * 1.06, available, 2).map((line) => ({
              bold: line,
              plain: "",
              width: textWidth(line, CAPTION_SIZE, "bold"),
            })),
            { bold: "", plain: fitted(plain, CAPTION_SIZE, available), width: Math.min(plainWidth, available) },
          ];
  const between = lines.length === 1 && (lines[0]?.width ?? 0) <= room.between;
  return { lines, between, lift: pendant || between || !room.hung ? 8 : 17 };
}

import {
  lightTokens,
  type ScapeLamp,
  type ScapePiece,
  type ScapeScene,
  type ScapeZone,
  zoneTones,
} from "../drawing/index.ts";
import type { Mesh } from "../solids/index.ts";
import { coverOf, floorCover, floorGrid, isTaken } from "./columns.ts";
import { GlbFile, type GlbPlace } from "./glb-file.ts";
import { lampAxes, lampThickness } from "./lamp-body.ts";
import { type Stand, standsOf } from "./placement.ts";
import { plantSets, settingOf } from "./plant-set.ts";
import type { PlantMesh } from "./plants/sprout.ts";
import { add, cross, minus, times, unit, type Vector } from "./plants/vector.ts";
import { Faces, glassMesh, layerMesh, waterMesh } from "./solids-of.ts";

/** Thickness of a lid, m. Design value, as in the view in three dimensions. */
const lid = 0.006;

/** A colour of the drawings as glTF has it: linear (sRGB of IEC 61966-2-1). */
function linear(token: `--${string}`): Vector {
  const written = lightTokens[token] ?? "";
  const part = (at: number): number => {
    const value = Number.parseInt(written.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}

const mixed = (a: Vector, b: Vector, share: number): Vector => add(times(a, 1 - share), times(b, share));

/** Corners of a smooth body: the mean of the faces around them, by their size. */
function smoothNormals({ positions, triangles }: Mesh): Float64Array {
  const out = new Float64Array(positions.length);
  const corner = (k: number): Vector => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const normal = cross(minus(corner(b), corner(a)), minus(corner(c), corner(a)));
    for (const k of [a, b, c]) for (let axis = 0; axis < 3; axis++) out[3 * k + axis]! += normal[axis]!;
  }
  for (let k = 0; k < out.length; k += 3) {
    const long = Math.hypot(out[k]!, out[k + 1]!, out[k + 2]!);
    // a corner that no face of any size touches looks up
    out.set(long > 0 ? [out[k]! / long, out[k + 1]! / long, out[k + 2]! / long] : [0, 0, 1], k);
  }
  return out;
}

/** The colours of a plant's corners: its tint, darker below, paler in young leaves. Shares are design values, by eye. */
function worn({ marks }: PlantMesh, tone: string, form: ScapeZone["form"]): Float32Array {
  const [fill, far, line, root, snail] = (
    [`--d-${tone}`, `--d-${tone}-far`, `--d-${tone}-line`, "--d-root", "--d-snail"] as const
  ).map((token) => linear(token)) as [Vector, Vector, Vector, Vector, Vector];
  const body = form === "moss" ? fill : snail;
  const out = new Float32Array((marks.length / 4) * 3);
  for (let k = 0; k < marks.length / 4; k++) {
    const [shade, kind] = [marks[4 * k + 2]!, Math.round(marks[4 * k + 3]!)];
    const leaf = shade < 0.6 ? mixed(line, fill, 0.45 + 0.9 * Math.max(0, shade)) : mixed(fill, far, shade - 0.6);
    out.set(kind === 3 ? root : kind === 4 ? body : kind === 2 ? mixed(line, fill, 0.4) : leaf, 3 * k);
  }
  return out;
}

/**
 * The whole scape as one binary glTF 2.0 file, m: glass, water, the bed by layers, stones, wood, plants by growth form
 * and lamps, each a node with its key and name, its place in the plan in `extras`. The origin is the inside left front
 * corner of the floor; up is +y, the viewer stands towards +z.
 * @throws RangeError where a piece has no triangles
 */
export function scapeGlb(scene: ScapeScene, name: string): Uint8Array {
  const file = new GlbFile();
  const { tank, layers, ground, pieces, zones, lamps } = scene;
  const glass = file.material({ name: "glass", colour: linear("--d-glass"), opaque: 0.22, roughness: 0.05 });
  const water = file.material({ name: "water", colour: linear("--d-water"), opaque: 0.14, roughness: 0.02 });
  const panes = new Faces();
  const { length, width, height } = tank;
  if (tank.cover === "lid")
    panes.box([-tank.glass, -tank.glass, height], [length + tank.glass, width + tank.glass, height + lid]);

  const part = (label: string, mesh: Mesh, material: number, extras: Record<string, string | number>): number =>
    file.node({ name: label, mesh: file.mesh(label, [{ ...mesh, material }]), extras });

  const vessel = file.node({
    name: "tank",
    children: [
      ...(tank.glass > 0 && tank.base > 0 ? [part("glass", glassMesh(tank), glass, { key: "tank" })] : []),
      ...(tank.cover === "lid" ? [part("lid", panes.mesh, glass, { key: "tank.cover" })] : []),
      part("water", waterMesh(tank, ground), water, { key: "water" }),
    ],
  });

  const laid = layers.map((layer, i) => {
    const label = `${layer.material}${layer.within ? " area" : ""}`;
    const material = file.material({ name: label, colour: linear(`--d-${layer.material}`), roughness: 1 });
    return { label, mesh: layerMesh(layer, layers[i - 1]?.top ?? null), material, key: `substrate[${i}]` };
  });
  const bed = file.node({
    name: "bed",
    children: laid
      .filter(({ mesh }) => mesh.triangles.length > 0)
      .map(({ label, mesh, material, key }) => part(label, mesh, material, { key })),
  });

  const stone = file.material({ name: "stone", colour: linear("--d-stone-2"), roughness: 0.9 });
  const wood = file.material({ name: "wood", colour: linear("--d-wood-shade"), roughness: 0.85 });
  const pieceNode = ({ key, label, kind, mesh, index }: ScapePiece): number => {
    const smooth = kind === "wood" ? { normals: smoothNormals(mesh) } : {};
    const shape = file.mesh(`${key} ${label}`, [{ ...mesh, ...smooth, material: kind === "wood" ? wood : stone }]);
    return file.node({ name: `${key} ${label}`, mesh: shape, extras: { key, plan: `hardscape[${index}]` } });
  };
  const hardscape = file.node({ name: "stones and wood", children: pieces.map(pieceNode) });

  const leaves = file.material({ name: "leaves", colour: [1, 1, 1], roughness: 0.7, bothSides: true });
  const grid = floorGrid(tank);
  const floor = floorCover(
    pieces.map(({ mesh }) => coverOf(mesh, [0, 0, 0], grid)),
    ground,
    grid,
  );
  const tones = zoneTones(zones);
  const zoneNode = (zone: ScapeZone, i: number): number => {
    const stands = standsOf(zone, {
      ground,
      waterLine: tank.waterLine,
      seed: scene.seed,
      taken: (x, y) => isTaken(floor, grid, x, y),
      piece: zone.on === null ? null : (pieces[zone.on]?.mesh ?? null),
    });
    const title = `${zone.key} ${zone.label}`;
    const plants = plantSets(zone, stands, scene).flatMap(({ plant, stands: own }, variant) => {
      const colours = worn(plant, tones[i] ?? "fresh", zone.form);
      const { positions, triangles } = plant;
      const shape = file.mesh(`${title}, plant ${variant + 1}`, [{ positions, triangles, colours, material: leaves }]);
      return own.map((stand) => file.node({ name: title, mesh: shape, place: placeOf(stand, zone, tank.waterLine) }));
    });
    return file.node({
      name: title,
      children: plants,
      extras: { key: zone.key, plan: `plants[${zone.index}]`, species: zone.label, form: zone.form },
    });
  };
  const planting = file.node({ name: "plants", children: zones.map(zoneNode) });

  const body = file.material({ name: "lamp", colour: linear("--d-stone-3"), roughness: 0.5 });
  const lit = file.material({
    name: "lamp, lit face",
    colour: linear("--d-led"),
    roughness: 0.5,
    glow: linear("--d-beam"),
  });
  const lampNode = (lamp: ScapeLamp): number => {
    const label = `${lamp.kind} lamp${lamp.index > 0 ? ` ${lamp.index + 1}` : ""}`;
    const [upper, lower] = lampMeshes(lamp);
    const shape = file.mesh(label, [
      { ...upper, material: body },
      { ...lower, material: lamp.strength > 0 ? lit : body },
    ]);
    const key = lamp.index === 0 ? "light" : `lamps[${lamp.index - 1}]`;
    return file.node({ name: label, mesh: shape, extras: { key, plan: key, caption: lamp.caption } });
  };
  const hung = file.node({ name: "lamps", children: lamps.map(lampNode) });

  const children = [
    vessel,
    ...(laid.length > 0 ? [bed] : []),
    ...(pieces.length > 0 ? [hardscape] : []),
    ...(zones.length > 0 ? [planting] : []),
    ...(lamps.length > 0 ? [hung] : []),
  ];
  const root = file.node({ name, children, extras: { unit: "m", origin: "inside left front corner of the floor" } });
  return file.write(root, name);
}

function placeOf(stand: Stand, zone: ScapeZone, waterLine: number): GlbPlace {
  const { along, across, up, wide, high } = settingOf(stand, zone, waterLine);
  return { at: stand.at, along: unit(along), across, up: unit(up), size: [wide, wide, high] };
}

/** A lamp's box without its lower face, and that face. */
function lampMeshes(lamp: ScapeLamp): readonly [upper: Mesh, lower: Mesh] {
  const [along, across, down] = lampAxes(lamp);
  const half = [Math.max(lamp.length, 0.02) / 2, Math.max(lamp.width, 0.02) / 2] as const;
  const place = (x: number, y: number, z: number): Vector =>
    add(
      [lamp.x, lamp.y, lamp.z],
      add(add(times(along, x * half[0]), times(across, y * half[1])), times(down, -z * lampThickness[lamp.kind])),
    );
  const face = (faces: Faces, ...at: readonly Vector[]): Faces => faces.face(...at.map((p) => place(...p)));
  const upper = new Faces();
  face(upper, [-1, -1, 1], [1, -1, 1], [1, 1, 1], [-1, 1, 1]);
  face(upper, [-1, -1, 0], [1, -1, 0], [1, -1, 1], [-1, -1, 1]);
  face(upper, [1, 1, 0], [-1, 1, 0], [-1, 1, 1], [1, 1, 1]);
  face(upper, [-1, 1, 0], [-1, -1, 0], [-1, -1, 1], [-1, 1, 1]);
  face(upper, [1, -1, 0], [1, 1, 0], [1, 1, 1], [1, -1, 1]);
  return [upper.mesh, face(new Faces(), [-1, -1, 0], [-1, 1, 0], [1, 1, 0], [1, -1, 0]).mesh];
}

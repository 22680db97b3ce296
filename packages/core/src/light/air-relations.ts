import { relation, series } from "../relation/index.ts";
import {
  cornerFactor,
  discInAir,
  panelInAir,
  panelToOpening,
  pointByPoint,
  pointInAir,
  rectangle,
  stripInAir,
} from "./air-field.ts";
import { lobeIntensity } from "./lobe.ts";
import { heightAbove, lobeExponent, photonFlux, quantity } from "./usual-inputs.ts";

const ppfd = { label: "photon flux density", unit: "umol/m2/s" } as const;
const size = (label: string) => quantity(label, "m", 0.005, 10);
const place = (label: string) => quantity(label, "m", -20, 20, 0);
const matt = "Matt emitter (cosine law), black surroundings, in air.";

export const airFieldRelations = [
  relation({
    id: "point-light-in-air",
    title: "Photon flux below a small lamp in air",
    room: "light",
    inputs: {
      intensity: quantity("intensity on the axis", "umol/s/sr", 0, 100_000),
      exponent: { ...lobeExponent, default: 0 },
      height: heightAbove,
      offset: quantity("horizontal distance from the axis", "m", 0, 20, 0),
    },
    outputs: { ppfd },
    equation: "E = I0 cos^m(theta) cos^3(theta)/H2",
    sources: ["definition"],
    validity: "Distance at least five times the lamp's largest size for 1 %; exponent 0 shines alike to all sides.",
    compute: ({ intensity, exponent, height, offset }) => {
      const cosine = height / Math.hypot(height, offset);
      return { ppfd: pointInAir(intensity * cosine ** exponent, height, offset) };
    },
  }),
  relation({
    id: "lobe-light-in-air",
    title: "Photon flux below a small lamp of known flux in air",
    room: "light",
    inputs: {
      flux: photonFlux,
      exponent: lobeExponent,
      height: heightAbove,
      offset: quantity("horizontal distance from the axis", "m", 0, 20, 0),
    },
    outputs: { ppfd },
    equation: "E = flux (m + 1)/(2 pi) cos^(m+3)(theta)/H2",
    sources: ["definition"],
    validity: "Distance at least five times the lamp's largest size for 1 %.",
    compute: ({ flux, exponent, height, offset }) => {
      const cosine = height / Math.hypot(height, offset);
      return { ppfd: pointInAir(lobeIntensity(flux, exponent, cosine), height, offset) };
    },
  }),
  relation({
    id: "disc-light-in-air",
    title: "Photon flux on the axis of a round panel in air",
    room: "light",
    inputs: { flux: photonFlux, radius: quantity("radius of the panel", "m", 0, 5), height: heightAbove },
    outputs: { ppfd, as_point: { label: "what the point formula would give", unit: "umol/m2/s" } },
    equation: "E = flux/(pi (R2 + H2))",
    sources: ["definition"],
    validity: matt,
    compute: ({ flux, radius, height }) => ({
      ppfd: discInAir(flux, radius, height),
      as_point: pointInAir(flux / Math.PI, height, 0),
    }),
  }),
  relation({
    id: "strip-light-in-air",
    title: "Photon flux below a narrow light bar in air",
    room: "light",
    inputs: {
      flux: photonFlux,
      length: size("length of the bar"),
      height: heightAbove,
      offset: quantity("distance across the bar, from its middle line", "m", 0, 20, 0),
    },
    outputs: { ppfd },
    equation: "E = flux/(pi L) H2/D3 (u/(1 + u2) + atan u), D2 = H2 + y2, u = L/(2 D)",
    sources: ["definition"],
    validity: `Bar narrow against its height, below its middle. ${matt}`,
    compute: ({ flux, length, height, offset }) => ({ ppfd: stripInAir(flux, length, height, offset) }),
  }),
  relation({
    id: "panel-light-in-air",
    title: "Photon flux below a rectangular panel in air",
    room: "light",
    inputs: {
      flux: photonFlux,
      length: size("length of the panel"),
      width: size("width of the panel"),
      height: heightAbove,
      x: place("place along the length, from the middle"),
      y: place("place along the width, from the middle"),
    },
    outputs: { ppfd },
    equation: "four corner factors F(a, b), added and taken away; E = F flux/area",
    sources: ["howell-catalogue"],
    validity: matt,
    compute: ({ flux, length, width, height, x, y }) => ({ ppfd: panelInAir(flux, length, width, height, x, y) }),
  }),
  relation({
    id: "corner-factor",
    title: "View of a parallel rectangle from opposite its corner",
    room: "light",
    inputs: {
      a: quantity("one side over the distance", "1", 0, 1000),
      b: quantity("other side over the distance", "1", 0, 1000),
    },
    outputs: { factor: { label: "configuration factor", unit: "1" } },
    equation: "F = [a/sqrt(1+a2) atan(b/sqrt(1+a2)) + b/sqrt(1+b2) atan(a/sqrt(1+b2))]/(2 pi)",
    sources: ["howell-catalogue"],
    compute: ({ a, b }) => ({ factor: cornerFactor(a, b) }),
  }),
  relation({
    id: "point-by-point",
    title: "Photon flux of several small lamps, point by point",
    room: "light",
    inputs: {
      intensities: series("intensity of each towards the place", "umol/s/sr", 0, 100_000),
      angles: series("angle of each from the receiver's normal", "deg", 0, 90),
      distances: series("distance of each", "m", 0.01, 50),
    },
    outputs: { ppfd },
    equation: "E = sum(I cos(theta)/r2)",
    sources: ["definition"],
    compute: ({ intensities, angles, distances }) => {
      if (intensities.length !== angles.length || angles.length !== distances.length) {
        throw new RangeError(
          `${intensities.length} intensities, ${angles.length} angles and ${distances.length} distances; as many of each are needed`,
        );
      }
      const lamps = intensities.map((intensity, i) => ({
        intensity,
        cosine: Math.cos((angles[i]! * Math.PI) / 180),
        distance: distances[i]!,
      }));
      return { ppfd: pointByPoint(lamps) };
    },
  }),
  relation({
    id: "panel-to-opening",
    title: "Share of a panel's light that falls into the tank's opening",
    room: "light",
    inputs: {
      panel_length: size("length of the panel"),
      panel_width: size("width of the panel"),
      opening_length: size("length of the water surface"),
      opening_width: size("width of the water surface"),
      height: quantity("height of the panel above the water", "m", 0.005, 5),
      x: quantity("panel off the middle, along the length", "m", -5, 5, 0),
      y: quantity("panel off the middle, along the width", "m", -5, 5, 0),
    },
    outputs: { share: { label: "share that enters", unit: "1" }, spill: { label: "share that is spilt", unit: "1" } },
    equation: "view factor of two parallel rectangles, closed form",
    sources: ["howell-catalogue"],
    validity: `${matt} Reflection at the water is left out.`,
    compute: (i) => {
      const panel = rectangle(i.panel_length, i.panel_width, i.x, i.y);
      const share = panelToOpening(panel, rectangle(i.opening_length, i.opening_width), i.height);
      return { share, spill: 1 - share };
    },
  }),
] as const;

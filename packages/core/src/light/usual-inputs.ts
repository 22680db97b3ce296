import { quantity } from "../relation/index.ts";

export { choice, quantity } from "../relation/index.ts";

export const wavelength = quantity("wavelength", "nm", 400, 700);
export const colourTemperature = quantity("colour temperature of the white light", "K", 2700, 6600, 4100);
export const photonFlux = quantity("photon flux of the lamp, 400 to 700 nm", "umol/s", 0.001, 100_000);
export const refractiveIndex = quantity("refractive index of the water", "1", 1.3, 1.5, 1.333);
export const beamAngle = quantity("full beam angle, to half intensity", "deg", 2, 175);
export const lobeExponent = quantity("lobe exponent m of cos^m; 1 spreads like matt paper", "1", 0, 500, 1);
export const heightAbove = quantity("height above the receiving plane", "m", 0.005, 20);
export const airHeight = quantity("height of the source above the water", "m", 0, 20);
export const waterDepth = quantity("depth of water", "m", 0.005, 10);
export const yellowing = quantity("absorption by tannin at 440 nm", "1/m", 0, 30, 0.4);
export const chlorophyll = quantity("chlorophyll a in the water", "ug/L", 0, 100, 0);
export const turbidity = quantity("turbidity", "NTU", 0, 100, 0.3);

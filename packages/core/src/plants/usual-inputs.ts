import { quantity } from "../relation/index.ts";

export { choice, quantity } from "../relation/index.ts";

export const temperature = quantity("water temperature", "°C", 0, 45, 25);
export const photoperiod = quantity("light per day", "h", 0, 24, 10);
export const ppfdTop = quantity("photon flux on top of the canopy", "umol/m2/s", 0, 3000);
export const biomass = quantity("dry biomass per area of the patch", "g/m2", 0, 2000);
export const extinction = quantity("light extinction of the plants", "m2/g", 0, 0.5, 0.02);
export const tankVolume = quantity("net volume of water", "L", 0.5, 1e6);
export const plantArea = quantity("area of the patch", "m2", 0, 1000);
export const nutrientFactor = quantity("nutrient factor", "1", 0, 1, 1);
export const co2 = quantity("free carbon dioxide", "mg/L", 0, 200);
export const halfSaturationCo2 = quantity("half-saturation of carbon dioxide", "umol/L", 0, 1000, 100);

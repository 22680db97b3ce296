import { quantity } from "../relation/index.ts";

export { choice, quantity, series } from "../relation/index.ts";

export const temperature = quantity("water temperature", "°C", 0, 45, 25);
export const bodyMass = quantity("wet mass of one animal", "g", 0.0001, 20000);
export const count = quantity("number of animals", "1", 0, 100000, 1);
export const tankVolume = quantity("net volume of water", "L", 0.5, 1e6);
export const acidity = quantity("pH", "1", 4, 11);

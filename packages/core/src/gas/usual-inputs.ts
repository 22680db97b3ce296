import { quantity } from "../relation/index.ts";

export { choice, quantity } from "../relation/index.ts";

export const waterTemperature = quantity("water temperature", "°C", 0, 40);
export const airPressure = quantity("air pressure at the tank, not reduced to sea level", "atm", 0.5, 1.1, 1);
export const waterVolume = quantity("volume of water", "L", 0.1, 100000);
export const lossRate = quantity("loss rate of CO2 at the surface", "1/h", 1e-4, 20);
export const airCo2 = quantity("CO2 of the room air, dry mole fraction", "ppm(v)", 0, 50000, 425);

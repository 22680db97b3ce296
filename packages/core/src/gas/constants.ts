/** Kelvin at 0 °C. */
export const ZERO_CELSIUS = 273.15;
/** Molar gas constant, J/(mol*K). CODATA 2018, exact. */
export const GAS_CONSTANT = 8.314462618;
/** One standard atmosphere, Pa. */
export const ATMOSPHERE = 101325;
/** One bar, Pa. */
export const BAR = 1e5;
/** Molar gas constant, L*atm/(mol*K). */
export const GAS_CONSTANT_L_ATM = (GAS_CONSTANT * 1000) / ATMOSPHERE;
/** Standard acceleration of free fall, m/s2. */
export const GRAVITY = 9.80665;
/** Molar masses, g/mol. */
export const MOLAR_MASS = { co2: 44.0095, o2: 31.998, n2: 28.0134, water: 18.01528 } as const;
/** Mole fractions in dry air. */
export const DRY_AIR = { o2: 0.20946, n2: 0.78084 } as const;

/** Gases that this room follows through water. */
export type Gas = "co2" | "o2" | "n2";

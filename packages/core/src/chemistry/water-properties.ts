/** 0 °C in kelvin. */
export const zeroCelsius = 273.15;

/**
 * Density of pure water at 1 atm, kg/m3 (source kell-1975); °C, 0 to 100.
 */
export function waterDensity(t: number): number {
  return (
    (999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - 280.54253e-12 * t))))) /
    (1 + 16.87985e-3 * t)
  );
}

/** Relative permittivity of water, without unit (source malmberg-maryott-1956); °C, 0 to 100. */
export function waterPermittivity(t: number): number {
  return 87.74 + t * (-0.40008 + t * (9.398e-4 - 1.41e-6 * t));
}

/** Viscosity of water divided by its value at 20 °C, without unit (source kestin-1978); °C, 0 to 40. */
export function relativeViscosity(t: number): number {
  const d = 20 - t;
  return 10 ** ((d / (t + 96)) * (1.2364 + d * (-1.37e-3 + 5.7e-6 * d)));
}

/** The two coefficients of the Debye-Hückel law on the log10 scale. */
export interface DebyeHuckel {
  /** kg^0.5/mol^0.5. */
  readonly a: number;
  /** kg^0.5/mol^0.5 per ångström. */
  readonly b: number;
}

/** Debye-Hückel coefficients at a temperature in °C, 0 to 100. */
export function debyeHuckel(t: number): DebyeHuckel {
  const rootDensity = Math.sqrt(waterDensity(t) / 1000);
  const et = waterPermittivity(t) * (t + zeroCelsius);
  return { a: (1.824829e6 * rootDensity) / et ** 1.5, b: (50.2916 * rootDensity) / Math.sqrt(et) };
}

/** mol/L of a dilute water from mol/kg of water, at °C. */
export function perLitre(molality: number, t: number): number {
  return (molality * waterDensity(t)) / 1000;
}

/** mol/kg of water of a dilute water from mol/L, at °C. */
export function perKilogram(concentration: number, t: number): number {
  return (concentration * 1000) / waterDensity(t);
}

/** Gravity, m/s². */
export const gravity = 9.80665;
/** Stefan-Boltzmann constant, W/m²/K⁴. */
export const stefanBoltzmann = 5.670374e-8;
/** Standard air pressure, Pa. */
export const standardPressure = 101_325;
/** 0 °C in kelvin. */
export const zeroCelsius = 273.15;
/** Gas constant of dry air, J/kg/K, as ASHRAE has it; older texts print 287.055. */
export const dryAirGasConstant = 287.042;
/** Gas constant of water vapour, J/kg/K. */
export const vapourGasConstant = 461.52;
/** Mass of a mole of water over mass of a mole of dry air. */
export const vapourToAirMass = 0.621945;

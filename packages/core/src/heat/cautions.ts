/** Cautions printed with results, where people or animals can be hurt. */

export const mainsCaution =
  "Mains and water: unplug everything before hands go in, keep a drip loop below every socket, use residual-current protection. The maker's instructions and a qualified electrician come before this arithmetic.";

export const stuckCaution =
  "A thermostat can stick on. Two smaller heaters, a separate over-temperature cut-out and a thermometer with an alarm limit the harm; see the maker's instructions and, for wiring, a qualified electrician.";

export const animalsCaution =
  "An estimate: rooms, lids and air movement differ. Trust a thermometer in the tank, and change its temperature slowly, by no more than 1-2 °C at a time.";

export const hotWaterCaution =
  "Hot tap water scalds: run the cold first, mix before hands go in, and measure the mix before it reaches the animals. Change a tank by no more than 1-2 °C at a time.";

import { relation } from "../relation/index.ts";
import { conductanceOfLayers } from "./base-and-lid.ts";
import {
  levelPlateDownNusselt,
  levelPlateUpNusselt,
  levelRuleCoefficient,
  verticalAirCoefficient,
  verticalPlateLaminarNusselt,
  verticalPlateNusselt,
  wallRuleCoefficient,
} from "./convection.ts";
import {
  carrierEvaporation,
  naturalConvectionExchange,
  openSurface,
  shahEvaporation,
  shortPoolEvaporation,
  stillAirFloor,
} from "./evaporation.ts";
import { airPressure, humidity, number, output, roomTemperature, secondsPerHour, waterTemperature } from "./inputs.ts";
import { vapourPressure } from "./moist-air.ts";
import { paneHeatLoss } from "./pane.ts";
import { radiantCoefficient, radiantFlux } from "./radiation.ts";
import { saturationPressure } from "./saturation.ts";

export const verticalPlateConvection = relation({
  id: "vertical-plate-convection",
  title: "Natural convection at an upright plate",
  room: "heat",
  inputs: {
    height: number("height", "m", 0.01, 10),
    width: number("width", "m", 0.01, 10),
    difference: number("plate less fluid", "K", 0.001, 1000),
    conductivity: number("conductivity of the fluid", "W/m/K", 0.001, 100),
    viscosity: number("kinematic viscosity", "m2/s", 1e-8, 1e-2),
    diffusivity: number("thermal diffusivity", "m2/s", 1e-8, 1e-2),
    prandtl: number("Prandtl number", "1", 0.001, 1e5),
    expansion: number("growth of volume per kelvin", "1/K", 1e-6, 0.01),
    gravity: number("gravity", "m/s2", 1, 30, 9.80665),
  },
  outputs: {
    rayleigh: output("Rayleigh number", "1"),
    nusselt: output("Nusselt number, any flow", "1"),
    nusselt_laminar: output("Nusselt number by the laminar form", "1"),
    coefficient: output("heat transfer coefficient", "W/m2/K"),
    heat: output("heat from the plate", "W"),
  },
  equation: "Nu = {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}^2; Ra = g b dT H^3/(nu a)",
  sources: ["churchill-chu-1975"],
  validity: "Ra up to 1e12 (laminar form 1e9); properties at the mean of plate and fluid",
  compute: (i) => {
    const rayleigh = (i.gravity * i.expansion * i.difference * i.height ** 3) / (i.viscosity * i.diffusivity);
    const nusselt = verticalPlateNusselt(rayleigh, i.prandtl);
    const coefficient = (nusselt * i.conductivity) / i.height;
    return {
      rayleigh,
      nusselt,
      nusselt_laminar: verticalPlateLaminarNusselt(rayleigh, i.prandtl),
      coefficient,
      heat: coefficient * i.height * i.width * i.difference,
    };
  },
});

export const levelPlateConvection = relation({
  id: "level-plate-convection",
  title: "Natural convection at a level plate",
  room: "heat",
  inputs: {
    grashof: number("Grashof number", "1", 1e3, 1e12),
    prandtl: number("Prandtl number", "1", 0.001, 1e5),
  },
  outputs: {
    nusselt_up: output("Nusselt number, warm side up", "1"),
    nusselt_down: output("Nusselt number, warm side down", "1"),
  },
  equation: "up: 0.54 Ra^(1/4) below Ra 1e7, 0.15 Ra^(1/3) above; down: 0.27 Ra^(1/4); length = area over perimeter",
  sources: ["mcadams"],
  validity: "up Ra 1e4 to 1e11, down 1e5 to 1e10",
  compute: ({ grashof, prandtl }) => ({
    nusselt_up: levelPlateUpNusselt(grashof * prandtl),
    nusselt_down: levelPlateDownNusselt(grashof * prandtl),
  }),
});

export const roomAirConvection = relation({
  id: "room-air-convection",
  title: "Convection in room air: pane formula and room rules",
  room: "heat",
  inputs: {
    difference: number("surface less air", "K", 0.01, 60),
    air: number("air temperature", "°C", 0, 45, 20),
    height: number("height of the pane", "cm", 3, 300, 40),
    pressure: airPressure,
  },
  outputs: {
    pane: output("upright pane", "W/m2/K"),
    tall_wall: output("rule for tall walls", "W/m2/K"),
    level_lively: output("rule for a level surface, warm side up", "W/m2/K"),
    level_stable: output("rule for a level surface, warm side down", "W/m2/K"),
  },
  equation: "pane: Churchill & Chu with dry air; rules: 1.31 dT^(1/3), 1.509 dT^(1/3), 0.760 dT^(1/3)",
  sources: ["churchill-chu-1975", "ashrae-room-air", "sutherland", "standard-atmosphere"],
  validity: "the wall rule runs low for panes under a metre",
  compute: ({ difference, air, height, pressure }) => ({
    pane: verticalAirCoefficient(difference, air, height / 100, pressure),
    tall_wall: wallRuleCoefficient(difference),
    level_lively: levelRuleCoefficient(difference, true),
    level_stable: levelRuleCoefficient(difference, false),
  }),
});

export const radiantLoss = relation({
  id: "radiant-loss",
  title: "Radiation from a surface to the room",
  room: "heat",
  inputs: {
    surface: number("surface temperature", "°C", -20, 100),
    surroundings: number("temperature of the walls around", "°C", -20, 100),
    emissivity: number("emissivity", "1", 0.01, 1, 0.96),
  },
  outputs: {
    coefficient: output("as a coefficient", "W/m2/K"),
    flux: output("heat per area", "W/m2"),
  },
  equation: "q = e s (T_s^4 - T_r^4)",
  sources: ["water-emissivity", "glass-bulletin"],
  compute: ({ surface, surroundings, emissivity }) => ({
    coefficient: radiantCoefficient(surface, surroundings, emissivity),
    flux: radiantFlux(surface, surroundings, emissivity),
  }),
});

export const paneLoss = relation({
  id: "pane-heat-loss",
  title: "Heat through a glass pane",
  room: "heat",
  inputs: {
    thickness: number("glass thickness", "mm", 2, 40),
    height: number("wetted height", "cm", 3, 200),
    water_temperature: waterTemperature,
    room_temperature: roomTemperature,
    conductivity: number("conductivity of the glass", "W/m/K", 0.1, 2, 1),
    emissivity: number("emissivity of the glass", "1", 0.01, 1, 0.84),
    water_side: number("coefficient of the water film", "W/m2/K", 50, 5000, 300),
    pressure: airPressure,
  },
  outputs: {
    surface_temperature: output("outside face of the glass", "°C"),
    convection: output("convection coefficient", "W/m2/K"),
    radiation: output("radiation coefficient", "W/m2/K"),
    flux: output("heat per area", "W/m2"),
    conductance: output("whole conductance, water to room", "W/m2/K"),
  },
  equation: "(T_w - T_s)/(1/h_i + t/k) = (h_c + h_r)(T_s - T_a), solved for T_s",
  sources: ["churchill-chu-1975", "glass-bulletin", "design"],
  validity: "room walls at air temperature; the convection law is good to about 15 %",
  compute: (i) => {
    const pane = paneHeatLoss(
      {
        thickness: i.thickness / 1000,
        height: i.height / 100,
        conductivity: i.conductivity,
        emissivity: i.emissivity,
        waterSide: i.water_side,
      },
      i.water_temperature,
      i.room_temperature,
      i.pressure,
    );
    return {
      surface_temperature: pane.surface,
      convection: pane.convection,
      radiation: pane.radiation,
      flux: pane.flux,
      conductance: pane.conductance,
    };
  },
});

export const baseLoss = relation({
  id: "base-conductance",
  title: "Heat through the bottom, by layers",
  room: "heat",
  inputs: {
    glass: number("bottom pane", "mm", 2, 40, 10),
    mat: number("levelling mat", "mm", 0, 50, 8),
    mat_conductivity: number("conductivity of the mat", "W/m/K", 0.02, 1, 0.04),
    board: number("board", "mm", 0, 100, 18),
    board_conductivity: number("conductivity of the board", "W/m/K", 0.05, 2, 0.13),
    air_resistance: number("still air below the board", "m2*K/W", 0.04, 0.3, 0.17),
  },
  outputs: { conductance: output("conductance, water to cabinet air", "W/m2/K") },
  equation: "1/U = 1/300 + glass/1.0 + mat/k + board/k + R_air",
  sources: ["iso-6946", "design"],
  validity: "the heat balance itself uses 1.8 W/m2/K for every bottom",
  compute: (i) => ({
    conductance: conductanceOfLayers([
      1 / 300,
      i.glass / 1000,
      i.mat / 1000 / i.mat_conductivity,
      i.board / 1000 / i.board_conductivity,
      i.air_resistance,
    ]),
  }),
});

export const surfaceEvaporation = relation({
  id: "surface-evaporation",
  title: "Evaporation per area by each formula",
  room: "heat",
  inputs: {
    water_temperature: waterTemperature,
    room_temperature: roomTemperature,
    humidity,
    surface_length: number("area over perimeter of the surface", "m", 0.02, 5, 0.2),
    air_speed: number("air speed for the pool equation", "m/s", 0, 5, 0.1),
    activity: number("activity factor of the pool equation", "1", 0.1, 2, 1),
    pressure: airPressure,
  },
  outputs: {
    pressure_difference: output("vapour pressure over the water less the room's", "Pa"),
    recommended: output("recommended, still room", "kg/m2/h"),
    pool_equation: output("pool equation at the air speed", "kg/m2/h"),
    undisturbed_pool: output("pool equation, still air, times 0.74", "kg/m2/h"),
    short_pool: output("short pool equation, activity 0.5", "kg/m2/h"),
    shah_moist: output("Shah, density of the mixture", "kg/m2/h"),
    shah_dry: output("Shah, density of the dry part", "kg/m2/h"),
    floor: output("floor of still air", "kg/m2/h"),
    natural_convection: output("natural-convection analogy", "kg/m2/h"),
    heat_coefficient: output("heat transfer coefficient of that analogy", "W/m2/K"),
  },
  equation:
    "recommended = max(natural-convection analogy, 5e-5 dp); pool: dp (0.089 + 0.0782 V) F/Y; Shah: C rho_w (rho_r - rho_w)^(1/3) (W_w - W_r)",
  sources: ["mcadams", "massman-1998", "shah-2014", "shah-2002", "carrier-1918", "smith-1998", "energyplus-pool"],
  validity:
    "formulas differ by a factor of 2: calibrate with one measured top-up; the recommended value rounds off the published step of convection near Ra 1e7",
  compute: (i) => {
    const water = i.water_temperature;
    const room = i.room_temperature;
    const overWater = saturationPressure(water);
    const inRoom = vapourPressure(room, i.humidity / 100);
    const still = naturalConvectionExchange(water, room, overWater, inRoom, i.surface_length, i.pressure);
    const recommended = new Float64Array(2);
    openSurface(i.surface_length, 0, i.pressure).exchange(water, room, overWater, inRoom, recommended);
    return {
      pressure_difference: overWater - inRoom,
      recommended: (recommended[0] as number) * secondsPerHour,
      pool_equation: carrierEvaporation(water, overWater, inRoom, i.air_speed, i.activity) * secondsPerHour,
      undisturbed_pool: carrierEvaporation(water, overWater, inRoom, 0, 0.74) * secondsPerHour,
      short_pool: shortPoolEvaporation(overWater, inRoom) * secondsPerHour,
      shah_moist: shahEvaporation(water, room, overWater, inRoom, "moist", i.pressure) * secondsPerHour,
      shah_dry: shahEvaporation(water, room, overWater, inRoom, "dry", i.pressure) * secondsPerHour,
      floor: stillAirFloor * (overWater - inRoom) * secondsPerHour,
      natural_convection: still.evaporation * secondsPerHour,
      heat_coefficient: still.heatCoefficient,
    };
  },
});

/**
 * Plants: 99 botanical species, no garden forms. Units of the table: height and spread cm, light umol/m2/s,
 * temperature °C, hardness dGH, growth 1/d, density portions/m2; `plants` gives lengths in m.
 * Origin: keeping ranges, sizes and densities are common practice without a source; growth rates are class values set
 * inside the published range (Nielsen & Sand-Jensen 1991 and others) unless the note names a measurement; bicarbonate
 * use is from the literature where stated and unknown for most. The last column says how these two are known.
 * Names follow common botanical usage, from memory.
 */
import type { How } from "../relation/index.ts";
import type { GrowthForm, PlantFact, PlantZone } from "./plant-fact.ts";
import { idOf } from "./words.ts";

type Row = readonly [
  name: string,
  family: string,
  form: GrowthForm,
  heightMin: number,
  heightMax: number,
  spread: number,
  zone: PlantZone,
  light: PlantFact["lightClass"],
  ppfdMin: number,
  ppfdGood: number,
  temperatureMin: number,
  temperatureOpt: number,
  temperatureMax: number,
  phMin: number,
  phMax: number,
  ghMax: number,
  co2: PlantFact["co2Need"],
  bicarbonate: PlantFact["bicarbonate"],
  growth: PlantFact["growth"],
  rgrMax: number,
  feeding: PlantFact["feeding"],
  propagation: string,
  attach: boolean,
  density: number,
  how: How,
];

// biome-ignore format: one species a line
const rows: readonly Row[] = [
  ["Vallisneria spiralis", "Hydrocharitaceae", "runner", 20, 60, 12, "background", "low", 20, 80, 15, 25, 30, 6.5, 8.5, 25, "none", "yes", "fast", 0.07, "both", "runners", false, 40, "memory"],
  ["Vallisneria americana", "Hydrocharitaceae", "runner", 40, 120, 20, "background", "low", 20, 80, 15, 26, 30, 6.5, 8.5, 25, "none", "yes", "fast", 0.07, "both", "runners", false, 20, "memory"],
  ["Vallisneria nana", "Hydrocharitaceae", "runner", 15, 60, 10, "background", "low", 20, 80, 18, 25, 29, 6, 8, 20, "helps", "unknown", "medium", 0.05, "both", "runners", false, 50, "common practice"],
  ["Sagittaria subulata", "Alismataceae", "runner", 5, 40, 8, "foreground", "low", 20, 80, 16, 24, 29, 6, 8, 20, "helps", "unknown", "medium", 0.05, "both", "runners", false, 60, "common practice"],
  ["Helanthium tenellum", "Alismataceae", "carpet", 3, 10, 6, "foreground", "medium", 40, 100, 18, 25, 29, 5.5, 7.5, 12, "helps", "unknown", "medium", 0.05, "root", "runners", false, 80, "common practice"],
  ["Helanthium bolivianum", "Alismataceae", "runner", 5, 15, 10, "foreground", "medium", 40, 90, 18, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "medium", 0.05, "root", "runners", false, 60, "common practice"],
  ["Echinodorus grisebachii", "Alismataceae", "rosette", 20, 60, 40, "background", "low", 25, 80, 20, 25, 29, 5.5, 7.8, 18, "helps", "unknown", "medium", 0.04, "root", "adventitious plantlets", false, 6, "common practice"],
  ["Echinodorus uruguayensis", "Alismataceae", "rosette", 20, 60, 35, "background", "medium", 30, 90, 15, 23, 28, 5.5, 7.5, 15, "helps", "unknown", "medium", 0.03, "root", "division", false, 8, "common practice"],
  ["Cryptocoryne wendtii", "Araceae", "rosette", 8, 25, 20, "midground", "low", 15, 50, 20, 25, 30, 5.5, 8, 20, "none", "unknown", "slow", 0.02, "root", "runners, division", false, 30, "common practice"],
  ["Cryptocoryne beckettii", "Araceae", "rosette", 8, 20, 15, "midground", "low", 15, 50, 20, 25, 30, 5.5, 7.8, 18, "none", "unknown", "slow", 0.02, "root", "runners, division", false, 35, "common practice"],
  ["Cryptocoryne parva", "Araceae", "carpet", 3, 8, 6, "foreground", "medium", 30, 80, 20, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "slow", 0.01, "root", "runners, division", false, 100, "common practice"],
  ["Cryptocoryne affinis", "Araceae", "rosette", 10, 25, 15, "midground", "low", 15, 50, 20, 25, 29, 5.5, 7.8, 18, "none", "unknown", "slow", 0.02, "root", "runners", false, 35, "common practice"],
  ["Cryptocoryne crispatula", "Araceae", "rosette", 20, 70, 20, "background", "low", 20, 60, 20, 25, 29, 6, 8, 20, "helps", "unknown", "slow", 0.025, "root", "runners", false, 20, "common practice"],
  ["Cryptocoryne undulata", "Araceae", "rosette", 10, 25, 15, "midground", "low", 15, 50, 20, 25, 29, 5.5, 7.8, 18, "none", "unknown", "slow", 0.02, "root", "runners", false, 35, "common practice"],
  ["Lagenandra meeboldii", "Araceae", "rosette", 8, 20, 20, "midground", "low", 15, 60, 20, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "slow", 0.015, "root", "rhizome division", false, 25, "common practice"],
  ["Blyxa japonica", "Hydrocharitaceae", "rosette", 7, 15, 15, "foreground", "medium", 50, 110, 20, 25, 29, 5, 7, 8, "helps", "unknown", "medium", 0.05, "both", "division", false, 50, "common practice"],
  ["Pogostemon helferi", "Lamiaceae", "rosette", 3, 10, 8, "foreground", "medium", 40, 100, 20, 25, 29, 6, 7.5, 15, "helps", "unknown", "medium", 0.04, "both", "division", false, 70, "common practice"],
  ["Ceratopteris thalictroides", "Pteridaceae", "rosette", 15, 50, 30, "background", "low", 30, 90, 20, 26, 30, 5, 7.8, 18, "none", "unknown", "fast", 0.08, "column", "adventitious plantlets", false, 15, "common practice"],
  ["Barclaya longifolia", "Nymphaeaceae", "bulb", 20, 45, 25, "background", "medium", 30, 80, 22, 26, 30, 5.5, 7.2, 10, "helps", "unknown", "medium", 0.04, "root", "rhizome division, seed", false, 8, "common practice"],
  ["Lobelia cardinalis", "Campanulaceae", "rosette", 5, 30, 12, "foreground", "medium", 40, 90, 16, 23, 28, 6, 7.8, 18, "helps", "unknown", "slow", 0.025, "both", "cuttings", false, 50, "common practice"],
  ["Samolus valerandi", "Primulaceae", "rosette", 5, 12, 12, "foreground", "medium", 40, 90, 16, 22, 26, 6, 8, 20, "helps", "unknown", "slow", 0.02, "root", "offsets", false, 40, "common practice"],
  ["Hottonia palustris", "Primulaceae", "stem", 15, 50, 10, "midground", "medium", 40, 90, 12, 20, 25, 5.5, 7.8, 18, "helps", "unknown", "medium", 0.04, "both", "cuttings", false, 60, "common practice"],
  ["Eriocaulon cinereum", "Eriocaulaceae", "rosette", 3, 8, 6, "foreground", "high", 70, 150, 20, 25, 28, 5, 6.8, 5, "needed", "unknown", "slow", 0.015, "root", "division, seed", false, 60, "common practice"],
  ["Ranunculus inundatus", "Ranunculaceae", "runner", 4, 15, 8, "foreground", "medium", 50, 110, 18, 23, 27, 5.5, 7.5, 12, "needed", "unknown", "medium", 0.04, "both", "runners", false, 60, "common practice"],
  ["Hydrocotyle tripartita", "Araliaceae", "runner", 3, 15, 10, "foreground", "medium", 40, 100, 18, 24, 28, 5.5, 7.8, 15, "helps", "unknown", "fast", 0.07, "both", "runners, cuttings", false, 60, "common practice"],
  ["Hydrocotyle verticillata", "Araliaceae", "runner", 3, 10, 8, "foreground", "medium", 50, 110, 16, 23, 28, 6, 7.5, 15, "needed", "unknown", "medium", 0.04, "both", "runners", false, 60, "common practice"],
  ["Marsilea hirsuta", "Marsileaceae", "carpet", 2, 10, 5, "foreground", "medium", 40, 90, 18, 24, 28, 5.5, 7.8, 15, "helps", "unknown", "slow", 0.02, "root", "runners", false, 80, "common practice"],
  ["Eleocharis acicularis", "Cyperaceae", "carpet", 5, 15, 4, "foreground", "medium", 50, 120, 12, 23, 28, 5.5, 7.5, 15, "helps", "no", "medium", 0.05, "root", "runners", false, 80, "memory"],
  ["Eleocharis parvula", "Cyperaceae", "carpet", 2, 7, 3, "foreground", "medium", 50, 120, 15, 24, 28, 5.5, 7.5, 15, "helps", "unknown", "medium", 0.05, "root", "runners", false, 90, "common practice"],
  ["Hemianthus callitrichoides", "Linderniaceae", "carpet", 1, 5, 3, "foreground", "high", 80, 160, 18, 23, 27, 5, 7.2, 8, "needed", "unknown", "medium", 0.05, "both", "runners, division", false, 100, "common practice"],
  ["Micranthemum tweediei", "Linderniaceae", "carpet", 2, 8, 4, "foreground", "medium", 50, 120, 18, 24, 28, 5.5, 7.5, 12, "helps", "unknown", "medium", 0.06, "both", "runners, division", false, 80, "common practice"],
  ["Micranthemum umbrosum", "Linderniaceae", "stem", 5, 25, 5, "midground", "high", 60, 130, 18, 24, 28, 5.5, 7.5, 12, "needed", "unknown", "fast", 0.08, "column", "cuttings", false, 90, "common practice"],
  ["Glossostigma elatinoides", "Phrymaceae", "carpet", 1, 4, 4, "foreground", "high", 80, 160, 18, 24, 28, 5, 7.2, 10, "needed", "unknown", "medium", 0.06, "both", "runners", false, 100, "common practice"],
  ["Elatine hydropiper", "Elatinaceae", "carpet", 1, 4, 3, "foreground", "medium", 60, 130, 15, 23, 27, 5.5, 7.2, 10, "needed", "unknown", "medium", 0.04, "both", "runners", false, 90, "common practice"],
  ["Lilaeopsis brasiliensis", "Apiaceae", "carpet", 3, 8, 4, "foreground", "medium", 50, 110, 15, 24, 28, 6, 7.8, 18, "helps", "unknown", "slow", 0.02, "root", "runners", false, 90, "common practice"],
  ["Utricularia graminifolia", "Lentibulariaceae", "carpet", 2, 8, 4, "foreground", "medium", 50, 120, 18, 24, 28, 5, 6.8, 5, "needed", "unknown", "slow", 0.02, "column", "runners, division", false, 80, "common practice"],
  ["Cyperus helferi", "Cyperaceae", "rosette", 20, 45, 20, "background", "medium", 40, 100, 20, 25, 29, 5.5, 7.5, 12, "needed", "unknown", "slow", 0.025, "root", "division", false, 15, "common practice"],
  ["Staurogyne repens", "Acanthaceae", "stem", 4, 12, 8, "foreground", "medium", 40, 100, 20, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "medium", 0.03, "both", "cuttings", false, 80, "common practice"],
  ["Hygrophila polysperma", "Acanthaceae", "stem", 20, 60, 8, "background", "low", 20, 80, 18, 25, 30, 5, 8, 20, "none", "unknown", "fast", 0.09, "both", "cuttings", false, 60, "common practice"],
  ["Hygrophila corymbosa", "Acanthaceae", "stem", 20, 60, 25, "background", "low", 25, 80, 20, 25, 29, 5.5, 7.8, 18, "helps", "unknown", "fast", 0.08, "both", "cuttings", false, 30, "common practice"],
  ["Hygrophila difformis", "Acanthaceae", "stem", 20, 50, 20, "background", "low", 25, 90, 20, 25, 29, 5.5, 7.8, 18, "none", "unknown", "fast", 0.09, "both", "cuttings", false, 40, "common practice"],
  ["Hygrophila pinnatifida", "Acanthaceae", "rhizome", 8, 30, 20, "epiphyte", "medium", 40, 100, 20, 25, 29, 5.5, 7.5, 12, "helps", "unknown", "medium", 0.04, "column", "cuttings, adventitious plantlets", true, 25, "common practice"],
  ["Bacopa caroliniana", "Plantaginaceae", "stem", 15, 40, 5, "midground", "medium", 30, 90, 15, 24, 29, 6, 7.8, 18, "helps", "unknown", "medium", 0.04, "both", "cuttings", false, 80, "common practice"],
  ["Bacopa monnieri", "Plantaginaceae", "stem", 15, 40, 5, "midground", "low", 25, 80, 15, 25, 30, 6, 8, 20, "none", "unknown", "medium", 0.04, "both", "cuttings", false, 80, "common practice"],
  ["Ludwigia repens", "Onagraceae", "stem", 20, 50, 8, "midground", "medium", 30, 90, 15, 24, 29, 5.5, 7.8, 18, "helps", "unknown", "fast", 0.07, "both", "cuttings", false, 70, "common practice"],
  ["Ludwigia palustris", "Onagraceae", "stem", 15, 40, 8, "midground", "medium", 40, 110, 15, 24, 28, 5.5, 7.5, 15, "helps", "unknown", "fast", 0.07, "both", "cuttings", false, 70, "common practice"],
  ["Ludwigia arcuata", "Onagraceae", "stem", 20, 50, 5, "midground", "medium", 50, 120, 18, 24, 28, 5.5, 7.5, 12, "helps", "unknown", "fast", 0.07, "both", "cuttings", false, 80, "common practice"],
  ["Ludwigia glandulosa", "Onagraceae", "stem", 20, 45, 10, "background", "high", 60, 140, 18, 25, 28, 5.5, 7.2, 10, "needed", "unknown", "medium", 0.03, "both", "cuttings", false, 50, "common practice"],
  ["Rotala rotundifolia", "Lythraceae", "stem", 20, 60, 4, "background", "medium", 35, 110, 18, 24, 29, 5.5, 7.5, 15, "helps", "unknown", "fast", 0.09, "both", "cuttings", false, 100, "common practice"],
  ["Rotala macrandra", "Lythraceae", "stem", 20, 50, 5, "background", "high", 70, 150, 20, 25, 29, 5, 7, 8, "needed", "unknown", "medium", 0.06, "both", "cuttings", false, 80, "common practice"],
  ["Rotala wallichii", "Lythraceae", "stem", 10, 30, 4, "midground", "high", 70, 150, 20, 25, 28, 5, 6.8, 5, "needed", "unknown", "medium", 0.06, "both", "cuttings", false, 90, "common practice"],
  ["Ammannia gracilis", "Lythraceae", "stem", 25, 60, 15, "background", "high", 60, 140, 20, 25, 29, 5.5, 7.5, 12, "needed", "unknown", "medium", 0.06, "both", "cuttings", false, 50, "common practice"],
  ["Ammannia pedicellata", "Lythraceae", "stem", 25, 60, 12, "background", "high", 60, 140, 20, 25, 29, 5.5, 7.2, 10, "needed", "unknown", "medium", 0.05, "both", "cuttings", false, 50, "common practice"],
  ["Didiplis diandra", "Lythraceae", "stem", 10, 30, 4, "midground", "medium", 50, 120, 20, 24, 28, 5.5, 7.2, 10, "needed", "unknown", "medium", 0.05, "both", "cuttings", false, 90, "common practice"],
  ["Alternanthera reineckii", "Amaranthaceae", "stem", 10, 45, 10, "midground", "medium", 45, 110, 18, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "medium", 0.03, "both", "cuttings", false, 60, "common practice"],
  ["Pogostemon stellatus", "Lamiaceae", "stem", 20, 60, 12, "background", "high", 60, 140, 20, 25, 29, 5.5, 7.2, 10, "needed", "unknown", "fast", 0.07, "both", "cuttings", false, 50, "common practice"],
  ["Pogostemon erectus", "Lamiaceae", "stem", 15, 40, 6, "background", "high", 60, 140, 20, 24, 28, 5.5, 7.2, 10, "needed", "unknown", "medium", 0.05, "both", "cuttings", false, 80, "common practice"],
  ["Proserpinaca palustris", "Haloragaceae", "stem", 15, 40, 8, "midground", "high", 60, 140, 16, 24, 28, 5.5, 7.5, 12, "needed", "unknown", "medium", 0.03, "both", "cuttings", false, 60, "common practice"],
  ["Myriophyllum mattogrossense", "Haloragaceae", "stem", 20, 60, 10, "background", "medium", 40, 110, 18, 24, 28, 5.5, 7.5, 12, "helps", "unknown", "fast", 0.08, "both", "cuttings", false, 60, "common practice"],
  ["Myriophyllum tuberculatum", "Haloragaceae", "stem", 15, 50, 8, "background", "high", 70, 150, 20, 25, 28, 5, 7, 8, "needed", "unknown", "medium", 0.06, "both", "cuttings", false, 70, "common practice"],
  ["Myriophyllum spicatum", "Haloragaceae", "stem", 30, 120, 10, "background", "medium", 35, 110, 10, 25, 33, 6.5, 9, 30, "none", "yes", "fast", 0.08, "both", "cuttings, fragments", false, 50, "memory"],
  ["Limnophila sessiliflora", "Plantaginaceae", "stem", 20, 60, 8, "background", "low", 20, 80, 18, 25, 29, 5.5, 7.8, 18, "none", "unknown", "fast", 0.09, "both", "cuttings", false, 70, "common practice"],
  ["Limnophila aquatica", "Plantaginaceae", "stem", 30, 60, 15, "background", "medium", 40, 110, 20, 25, 29, 5.5, 7.5, 12, "helps", "unknown", "fast", 0.08, "both", "cuttings", false, 40, "common practice"],
  ["Cabomba caroliniana", "Cabombaceae", "stem", 30, 80, 8, "background", "medium", 40, 110, 15, 24, 28, 5, 7.2, 8, "helps", "no", "fast", 0.08, "column", "cuttings", false, 60, "memory"],
  ["Cabomba furcata", "Cabombaceae", "stem", 30, 70, 8, "background", "high", 80, 160, 20, 25, 28, 5, 6.8, 5, "needed", "no", "medium", 0.06, "column", "cuttings", false, 60, "memory"],
  ["Heteranthera zosterifolia", "Pontederiaceae", "stem", 15, 50, 10, "midground", "medium", 40, 100, 18, 25, 29, 5.5, 7.5, 15, "helps", "unknown", "fast", 0.08, "both", "cuttings", false, 70, "common practice"],
  ["Shinnersia rivularis", "Asteraceae", "stem", 20, 60, 12, "background", "low", 25, 80, 18, 24, 28, 5.5, 7.8, 20, "none", "unknown", "fast", 0.09, "column", "cuttings", false, 50, "common practice"],
  ["Mayaca fluviatilis", "Mayacaceae", "stem", 15, 50, 5, "midground", "medium", 50, 120, 20, 25, 28, 5, 7, 8, "needed", "unknown", "fast", 0.07, "column", "cuttings", false, 80, "common practice"],
  ["Lysimachia nummularia", "Primulaceae", "stem", 10, 40, 6, "midground", "low", 25, 80, 10, 21, 26, 6, 8, 22, "none", "unknown", "slow", 0.02, "both", "cuttings", false, 60, "common practice"],
  ["Tonina fluviatilis", "Eriocaulaceae", "stem", 10, 35, 6, "midground", "high", 80, 160, 20, 25, 28, 4.5, 6.5, 4, "needed", "unknown", "slow", 0.025, "root", "cuttings", false, 70, "common practice"],
  ["Egeria densa", "Hydrocharitaceae", "stem", 30, 100, 6, "background", "low", 20, 90, 10, 23, 28, 6, 9, 28, "none", "yes", "fast", 0.08, "both", "cuttings, fragments", false, 50, "read"],
  ["Elodea canadensis", "Hydrocharitaceae", "stem", 30, 100, 5, "background", "low", 20, 90, 8, 21, 26, 6, 9, 28, "none", "yes", "fast", 0.08, "both", "cuttings, fragments", false, 50, "memory"],
  ["Najas guadalupensis", "Hydrocharitaceae", "stem", 20, 80, 6, "background", "low", 20, 80, 16, 25, 30, 6, 8.5, 25, "none", "unknown", "fast", 0.09, "column", "fragments", false, 40, "common practice"],
  ["Potamogeton gayi", "Potamogetonaceae", "stem", 30, 80, 6, "background", "low", 25, 90, 15, 23, 28, 6, 8, 20, "none", "unknown", "medium", 0.06, "both", "runners, cuttings", false, 40, "common practice"],
  ["Ceratophyllum demersum", "Ceratophyllaceae", "stem", 30, 100, 10, "background", "low", 20, 90, 10, 25, 30, 6, 9, 28, "none", "yes", "fast", 0.07, "column", "fragments", false, 30, "memory"],
  ["Aponogeton crispus", "Aponogetonaceae", "bulb", 25, 60, 30, "background", "low", 25, 80, 18, 25, 29, 5.5, 7.8, 15, "helps", "unknown", "medium", 0.05, "root", "seed", false, 10, "common practice"],
  ["Aponogeton ulvaceus", "Aponogetonaceae", "bulb", 30, 60, 40, "background", "medium", 30, 90, 20, 25, 28, 5.5, 7.5, 12, "helps", "unknown", "medium", 0.05, "root", "seed", false, 6, "common practice"],
  ["Aponogeton madagascariensis", "Aponogetonaceae", "bulb", 25, 50, 35, "background", "low", 20, 60, 16, 21, 25, 5.5, 7.2, 8, "helps", "unknown", "slow", 0.025, "root", "seed, rhizome division", false, 6, "common practice"],
  ["Crinum thaianum", "Amaryllidaceae", "bulb", 40, 120, 25, "background", "low", 20, 70, 18, 25, 30, 5.5, 8, 20, "none", "unknown", "slow", 0.015, "root", "offsets", false, 4, "common practice"],
  ["Crinum calamistratum", "Amaryllidaceae", "bulb", 40, 100, 20, "background", "low", 20, 70, 20, 25, 29, 5.5, 8, 20, "none", "unknown", "slow", 0.01, "root", "offsets", false, 5, "common practice"],
  ["Nymphaea lotus", "Nymphaeaceae", "bulb", 20, 60, 40, "midground", "medium", 30, 90, 20, 26, 30, 5.5, 7.8, 15, "helps", "unknown", "medium", 0.05, "root", "offsets, seed", false, 4, "common practice"],
  ["Anubias barteri", "Araceae", "rhizome", 10, 40, 25, "epiphyte", "low", 10, 40, 20, 25, 29, 5.5, 8, 20, "none", "unknown", "slow", 0.01, "column", "rhizome division", true, 16, "common practice"],
  ["Bucephalandra pygmaea", "Araceae", "rhizome", 3, 10, 8, "epiphyte", "low", 15, 50, 20, 25, 28, 5.5, 7.8, 15, "helps", "unknown", "slow", 0.008, "column", "rhizome division", true, 50, "common practice"],
  ["Bucephalandra motleyana", "Araceae", "rhizome", 5, 15, 12, "epiphyte", "low", 15, 50, 20, 25, 28, 5.5, 7.8, 15, "helps", "unknown", "slow", 0.008, "column", "rhizome division", true, 35, "common practice"],
  ["Leptochilus pteropus", "Polypodiaceae", "rhizome", 15, 35, 25, "epiphyte", "low", 10, 45, 18, 24, 28, 5.5, 7.8, 20, "none", "unknown", "slow", 0.015, "column", "rhizome division, adventitious plantlets", true, 16, "common practice"],
  ["Bolbitis heudelotii", "Dryopteridaceae", "rhizome", 15, 40, 30, "epiphyte", "low", 15, 50, 20, 24, 28, 5, 7.2, 10, "helps", "unknown", "slow", 0.012, "column", "rhizome division", true, 12, "common practice"],
  ["Taxiphyllum barbieri", "Hypnaceae", "moss", 2, 10, 15, "epiphyte", "low", 10, 50, 15, 23, 28, 5, 8, 20, "none", "no", "slow", 0.025, "column", "fragments", true, 40, "common practice"],
  ["Vesicularia montagnei", "Hypnaceae", "moss", 2, 8, 12, "epiphyte", "low", 20, 70, 18, 23, 26, 5, 7.5, 12, "helps", "no", "slow", 0.02, "column", "fragments", true, 50, "common practice"],
  ["Vesicularia ferriei", "Hypnaceae", "moss", 2, 8, 12, "epiphyte", "medium", 25, 80, 18, 23, 26, 5, 7.5, 12, "helps", "no", "slow", 0.02, "column", "fragments", true, 50, "common practice"],
  ["Fissidens fontanus", "Fissidentaceae", "moss", 1, 4, 6, "epiphyte", "medium", 25, 70, 15, 22, 25, 5, 7.5, 12, "helps", "no", "slow", 0.01, "column", "fragments", true, 60, "common practice"],
  ["Fontinalis antipyretica", "Fontinalaceae", "moss", 5, 30, 15, "epiphyte", "low", 15, 60, 4, 15, 22, 5.5, 7.8, 15, "helps", "no", "slow", 0.015, "column", "fragments", true, 30, "common practice"],
  ["Riccardia chamedryfolia", "Aneuraceae", "moss", 1, 3, 5, "epiphyte", "medium", 25, 70, 18, 22, 26, 5, 7.5, 10, "helps", "no", "slow", 0.01, "column", "fragments", true, 60, "common practice"],
  ["Monosolenium tenerum", "Monosoleniaceae", "moss", 2, 6, 10, "foreground", "low", 15, 60, 15, 22, 26, 5.5, 7.5, 15, "helps", "no", "slow", 0.02, "column", "fragments", true, 50, "common practice"],
  ["Riccia fluitans", "Ricciaceae", "moss", 1, 6, 10, "foreground", "medium", 30, 120, 12, 24, 28, 5.5, 7.8, 15, "helps", "no", "fast", 0.138, "column", "fragments", true, 60, "read"],
  ["Lemna minor", "Araceae", "floating", 0, 1, 1, "floating", "medium", 30, 200, 8, 26.7, 33, 5, 9, 30, "none", "unknown", "fast", 0.42, "column", "fronds", false, 50, "read"],
  ["Salvinia auriculata", "Salviniaceae", "floating", 1, 3, 6, "floating", "medium", 40, 150, 18, 28, 32, 5, 7.8, 20, "none", "unknown", "fast", 0.15, "column", "fragments", false, 60, "common practice"],
  ["Hydrocharis laevigata", "Hydrocharitaceae", "floating", 2, 6, 12, "floating", "medium", 40, 150, 18, 25, 29, 6, 8, 20, "none", "unknown", "fast", 0.1, "column", "runners", false, 40, "common practice"],
  ["Pistia stratiotes", "Araceae", "floating", 5, 20, 20, "floating", "medium", 50, 200, 20, 27, 31, 5.5, 7.8, 20, "none", "unknown", "fast", 0.1, "column", "runners", false, 15, "common practice"],
  ["Phyllanthus fluitans", "Phyllanthaceae", "floating", 1, 3, 5, "floating", "medium", 50, 150, 20, 25, 29, 5.5, 7.5, 12, "none", "unknown", "fast", 0.08, "column", "fragments", false, 60, "common practice"],
];

const notes: Readonly<Record<string, string>> = {
  "Vallisneria spiralis":
    "bicarbonate use as the general literature has it, from memory; leaf uptake of P measured by Wang et al. (abstract read)",
  "Vallisneria americana":
    "bicarbonate use and critical tissue N 1.3 %, P 0.13 % (Gerloff & Krombholz 1966), from memory",
  "Eleocharis acicularis": "taken as CO2-only like other small rushes, from memory, doubtful",
  "Hygrophila polysperma": "survives to about 4 °C outdoors (state literature review, excerpt read)",
  "Myriophyllum spicatum":
    "bicarbonate use, compensation 35 umol/m2/s and apparent Km(CO2) 150-170 umol/L at pH 4 (Van, Haller & Bowes 1976), from memory",
  "Cabomba caroliniana": "mostly reported as CO2-only, from memory",
  "Cabomba furcata": "CO2-only by analogy with its kin, from memory, doubtful",
  "Egeria densa":
    "bicarbonate use: Kahara & Vermaat 2003 (abstract read); rooted plants took 83-85 % of their P by the roots (abstract read)",
  "Elodea canadensis":
    "bicarbonate use from memory; class growth rate lies within 0.007-0.109 1/d of 14 temperate species at 15 °C (Nielsen & Sand-Jensen 1991, abstract read)",
  "Ceratophyllum demersum":
    "growth rate derived from the ditch-model group maximum; lake maximum 0.025-0.041 1/d (Best 1986, abstract read); bicarbonate use from memory",
  "Leptochilus pteropus": "long known as Microsorum pteropus",
  "Riccia fluitans":
    "growth rate: Andersen & Pedersen 2002, 0.011 at low to 0.138 1/d at high light and CO2 (abstract read); bicarbonate by group, Bain & Proctor 1980",
  "Lemna minor":
    "growth rate and optimum: Klein et al. 2022 (code read), 0.47 less 0.05 1/d in full daylight at 25 °C; takes CO2 from the air",
  "Salvinia auriculata":
    "growth rate and optimum from its kin S. molesta, 17.16 % a day (Mitchell & Tur 1976, abstract read); takes CO2 from the air",
  "Hydrocharis laevigata": "long known as Limnobium laevigatum; takes CO2 from the air",
  "Pistia stratiotes": "crowded stands grew 0.036 1/d over 70 days (abstract read); takes CO2 from the air",
  "Phyllanthus fluitans": "takes CO2 from the air",
};

const mossNote =
  "bicarbonate by group: none of 20 mosses and liverworts tested used it (Bain & Proctor 1980, abstract read)";

const synonyms: Readonly<Record<string, readonly string[]>> = {
  "Leptochilus pteropus": ["Microsorum pteropus"],
  "Hydrocharis laevigata": ["Limnobium laevigatum"],
  "Ammannia pedicellata": ["Nesaea pedicellata"],
  "Helanthium tenellum": ["Echinodorus tenellus"],
  "Helanthium bolivianum": ["Echinodorus bolivianus"],
  "Riccardia chamedryfolia": ["Riccardia chamaedryfolia"],
};

function fact(row: Row): PlantFact {
  const [name, family, form, heightMin, heightMax, spread, zone, lightClass, ppfdMin, ppfdGood, ...afterLight] = row;
  const [temperatureMin, temperatureOpt, temperatureMax, phMin, phMax, ghMax, co2Need, ...afterWater] = afterLight;
  const [bicarbonate, growth, rgrMax, feeding, propagation, attach, density, how] = afterWater;
  const note = notes[name] ?? (form === "moss" ? mossNote : undefined);
  return {
    id: idOf(name),
    name,
    family,
    form,
    heightMin: heightMin / 100,
    heightMax: heightMax / 100,
    spread: spread / 100,
    zone,
    lightClass,
    ppfdMin,
    ppfdGood,
    temperatureMin,
    temperatureOpt,
    temperatureMax,
    phMin,
    phMax,
    ghMax,
    co2Need,
    bicarbonate,
    growth,
    rgrMax,
    feeding,
    propagation,
    attach,
    density,
    how,
    ...(note === undefined ? {} : { note }),
    synonyms: synonyms[name] ?? [],
  };
}

/** All plants, in the order of the table: related ones stand together. */
export const plants: readonly PlantFact[] = rows.map(fact);

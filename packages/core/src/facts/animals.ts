/**
 * Animals: 86 species of fish, shrimp and snails. Units of the table: length and tank length cm, temperature °C,
 * hardness dGH, tank L; `animals` gives lengths in m.
 * Origin: common practice of keepers, no source, throughout: lengths are usual full sizes in aquaria rounded to half
 * a centimetre, keeping ranges are rounded to whole degrees, half pH steps and whole degrees of hardness and
 * reviewed one by one. Families follow recent usage, from memory. Body classes are judged from the shape of the fish;
 * mass follows from the class (Froese, Thorson & Reyes 2014), not from measurements of the species.
 */
import type { AnimalFact, AnimalKind, BodyClass } from "./animal-fact.ts";
import { idOf } from "./words.ts";

type Row = readonly [
  name: string,
  common: string,
  family: string,
  body: BodyClass,
  length: number,
  group: number,
  layer: AnimalFact["layer"],
  temperatureMin: number,
  temperatureMax: number,
  phMin: number,
  phMax: number,
  ghMin: number,
  ghMax: number,
  flow: AnimalFact["flow"],
  temperament: AnimalFact["temperament"],
  diet: AnimalFact["diet"],
  plantSafe: AnimalFact["plantSafe"],
  shrimpSafe: AnimalFact["shrimpSafe"],
  tank: number,
  tankLength: number,
];

// biome-ignore format: one species a line
const rows: readonly Row[] = [
  ["Paracheirodon innesi", "neon tetra", "Characidae", "fusiform", 3.5, 10, "mid", 20, 26, 5, 7.5, 1, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Paracheirodon axelrodi", "cardinal tetra", "Characidae", "fusiform", 4, 10, "mid", 23, 28, 4.5, 7, 1, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Paracheirodon simulans", "green neon tetra", "Characidae", "fusiform", 2.5, 10, "mid", 23, 28, 4.5, 7, 1, 8, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Hyphessobrycon amandae", "ember tetra", "Characidae", "fusiform", 2.5, 10, "mid", 23, 28, 5.5, 7.5, 1, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Hyphessobrycon herbertaxelrodi", "black neon tetra", "Characidae", "fusiform", 4, 8, "mid", 22, 27, 5.5, 7.5, 1, 15, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Hyphessobrycon eques", "serpae tetra", "Characidae", "deep", 4.5, 10, "mid", 22, 27, 5, 8, 2, 20, "gentle", "semi", "omnivore", "yes", "adults only", 112, 80],
  ["Hyphessobrycon pulchripinnis", "lemon tetra", "Characidae", "fusiform", 4.5, 8, "mid", 22, 28, 5.5, 8, 2, 20, "gentle", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Hyphessobrycon megalopterus", "black phantom tetra", "Characidae", "fusiform", 4.5, 8, "mid", 22, 28, 5.5, 7.5, 2, 18, "gentle", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Hemigrammus rhodostomus", "rummy-nose tetra", "Characidae", "fusiform", 5, 10, "mid", 23, 27, 5.5, 7, 1, 10, "moderate", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Hemigrammus erythrozonus", "glowlight tetra", "Characidae", "fusiform", 4, 8, "mid", 23, 28, 5.5, 7.5, 2, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Nannostomus marginatus", "dwarf pencilfish", "Lebiasinidae", "fusiform", 3.5, 8, "top", 24, 27, 5.5, 7.5, 1, 12, "still", "peaceful", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Nannostomus beckfordi", "golden pencilfish", "Lebiasinidae", "elongated", 6, 8, "top", 23, 27, 5.5, 7.5, 2, 18, "gentle", "peaceful", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Carnegiella strigata", "marbled hatchetfish", "Gasteropelecidae", "deep", 4, 8, "top", 24, 28, 5, 7.5, 2, 15, "gentle", "peaceful", "micro-carnivore", "yes", "yes", 112, 80],
  ["Phenacogrammus interruptus", "Congo tetra", "Alestidae", "fusiform", 8, 6, "mid", 23, 27, 6, 7.5, 3, 18, "moderate", "peaceful", "omnivore", "partly", "no", 240, 120],
  ["Gymnocorymbus ternetzi", "black tetra", "Characidae", "deep", 6, 8, "mid", 20, 26, 6, 8, 3, 20, "gentle", "semi", "omnivore", "yes", "adults only", 112, 80],
  ["Trigonostigma heteromorpha", "harlequin rasbora", "Danionidae", "deep", 4.5, 8, "mid", 22, 27, 5, 7.5, 2, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Trigonostigma espei", "lambchop rasbora", "Danionidae", "fusiform", 3, 8, "mid", 23, 28, 5.5, 7, 1, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Boraras brigittae", "chili rasbora", "Danionidae", "fusiform", 2, 10, "mid", 23, 28, 4.5, 7, 1, 10, "still", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Boraras maculatus", "dwarf spotted rasbora", "Danionidae", "fusiform", 2.5, 10, "mid", 23, 27, 4.5, 7, 1, 10, "still", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Brevibora dorsiocellata", "eyespot rasbora", "Danionidae", "fusiform", 4, 8, "mid", 21, 26, 6, 7.5, 2, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Danio margaritatus", "celestial pearl danio", "Danionidae", "fusiform", 2.5, 10, "mid", 20, 26, 6.5, 8, 4, 15, "gentle", "peaceful", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Danio rerio", "zebrafish", "Danionidae", "fusiform", 4.5, 8, "all", 18, 28, 6, 8, 3, 20, "moderate", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Danio erythromicron", "emerald dwarf danio", "Danionidae", "fusiform", 3, 10, "mid", 20, 25, 6.5, 8, 6, 20, "gentle", "peaceful", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Danio choprae", "glowlight danio", "Danionidae", "fusiform", 3.5, 8, "all", 20, 26, 6, 7.5, 3, 15, "moderate", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Microdevario kubotai", "green rasbora", "Danionidae", "fusiform", 2.5, 10, "mid", 22, 27, 6, 7.5, 1, 12, "moderate", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Sundadanio axelrodi", "neon blue rasbora", "Danionidae", "fusiform", 2.5, 10, "mid", 23, 27, 4.5, 7, 1, 8, "gentle", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Tanichthys albonubes", "white cloud mountain minnow", "Tanichthyidae", "fusiform", 4, 8, "mid", 15, 24, 6, 8, 4, 18, "moderate", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Puntius titteya", "cherry barb", "Cyprinidae", "fusiform", 5, 6, "mid", 22, 27, 6, 8, 3, 18, "gentle", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Puntigrus tetrazona", "tiger barb", "Cyprinidae", "deep", 7, 8, "mid", 20, 26, 6, 8, 3, 18, "moderate", "semi", "omnivore", "partly", "no", 200, 100],
  ["Pethia conchonius", "rosy barb", "Cyprinidae", "fusiform", 10, 6, "all", 18, 24, 6, 8, 4, 20, "moderate", "semi", "omnivore", "partly", "no", 240, 120],
  ["Desmopuntius pentazona", "pentazona barb", "Cyprinidae", "fusiform", 5, 8, "mid", 23, 28, 5, 7, 1, 12, "gentle", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Crossocheilus oblongus", "Siamese algae-eater", "Cyprinidae", "fusiform", 15, 3, "bottom", 23, 27, 6.5, 8, 5, 20, "moderate", "peaceful", "herbivore", "yes", "yes", 240, 120],
  ["Epalzeorhynchos bicolor", "red-tailed shark", "Cyprinidae", "fusiform", 12, 1, "bottom", 22, 27, 6.5, 7.5, 3, 15, "moderate", "territorial", "omnivore", "yes", "adults only", 240, 120],
  ["Gyrinocheilus aymonieri", "Chinese algae-eater", "Gyrinocheilidae", "elongated", 25, 1, "bottom", 22, 28, 6, 8, 5, 20, "strong", "territorial", "herbivore", "partly", "adults only", 375, 150],
  ["Ambastaia sidthimunki", "dwarf chain loach", "Botiidae", "elongated", 6.5, 8, "bottom", 24, 28, 6, 8, 3, 15, "moderate", "peaceful", "carnivore", "yes", "no", 200, 100],
  ["Chromobotia macracanthus", "clown loach", "Botiidae", "fusiform", 30, 6, "bottom", 25, 30, 5, 8, 3, 12, "moderate", "peaceful", "omnivore", "partly", "no", 1000, 200],
  ["Pangio kuhlii", "kuhli loach", "Cobitidae", "elongated", 10, 6, "bottom", 24, 30, 5.5, 7, 1, 10, "gentle", "peaceful", "omnivore", "yes", "yes", 112, 80],
  ["Sewellia lineolata", "reticulated hillstream loach", "Gastromyzontidae", "elongated", 6.5, 4, "bottom", 20, 24, 6.5, 7.5, 3, 15, "strong", "peaceful", "herbivore", "yes", "yes", 112, 80],
  ["Corydoras pygmaeus", "pygmy corydoras", "Callichthyidae", "deep", 3, 10, "bottom", 22, 26, 6, 7.5, 2, 15, "gentle", "peaceful", "omnivore", "yes", "yes", 54, 60],
  ["Corydoras habrosus", "salt-and-pepper corydoras", "Callichthyidae", "deep", 3.5, 10, "bottom", 22, 26, 6, 7.5, 2, 15, "gentle", "peaceful", "omnivore", "yes", "yes", 54, 60],
  ["Corydoras panda", "panda corydoras", "Callichthyidae", "deep", 5, 6, "bottom", 20, 25, 6, 7.5, 2, 12, "gentle", "peaceful", "omnivore", "yes", "yes", 112, 80],
  ["Corydoras sterbai", "orange-fin corydoras", "Callichthyidae", "deep", 6.5, 6, "bottom", 23, 28, 6, 8, 2, 15, "gentle", "peaceful", "omnivore", "yes", "yes", 112, 80],
  ["Corydoras aeneus", "bronze corydoras", "Callichthyidae", "deep", 7, 6, "bottom", 22, 27, 6, 8, 3, 18, "gentle", "peaceful", "omnivore", "yes", "yes", 112, 80],
  ["Otocinclus vittatus", "otocinclus", "Loricariidae", "fusiform", 4, 6, "bottom", 21, 26, 6, 7.5, 2, 18, "moderate", "peaceful", "herbivore", "yes", "yes", 54, 60],
  ["Ancistrus cirrhosus", "bristlenose catfish", "Loricariidae", "fusiform", 12, 1, "bottom", 22, 27, 6, 8, 2, 20, "moderate", "peaceful", "herbivore", "partly", "yes", 112, 80],
  ["Pterygoplichthys pardalis", "Amazon sailfin catfish", "Loricariidae", "deep", 45, 1, "bottom", 23, 28, 6.5, 8, 4, 20, "moderate", "territorial", "herbivore", "no", "adults only", 1000, 200],
  ["Poecilia reticulata", "guppy", "Poeciliidae", "fusiform", 5, 5, "top", 18, 28, 7, 8.5, 8, 25, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Poecilia wingei", "Endler's livebearer", "Poeciliidae", "fusiform", 4, 5, "top", 22, 28, 7, 8.5, 8, 25, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Poecilia sphenops", "molly", "Poeciliidae", "fusiform", 9, 5, "all", 22, 28, 7.5, 8.5, 10, 30, "moderate", "peaceful", "herbivore", "partly", "adults only", 200, 100],
  ["Xiphophorus maculatus", "platy", "Poeciliidae", "fusiform", 6, 5, "all", 18, 26, 7, 8, 8, 25, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Xiphophorus hellerii", "swordtail", "Poeciliidae", "fusiform", 12, 5, "all", 21, 28, 7, 8, 8, 25, "moderate", "semi", "omnivore", "yes", "adults only", 200, 100],
  ["Poropanchax normani", "Norman's lampeye", "Procatopodidae", "elongated", 4, 10, "top", 22, 26, 6, 7.5, 2, 15, "moderate", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Oryzias latipes", "Japanese ricefish", "Adrianichthyidae", "elongated", 4, 6, "top", 15, 26, 6.5, 8, 4, 20, "gentle", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Melanotaenia praecox", "dwarf neon rainbowfish", "Melanotaeniidae", "fusiform", 6, 8, "mid", 22, 28, 6.5, 8, 4, 18, "moderate", "peaceful", "omnivore", "yes", "adults only", 112, 80],
  ["Melanotaenia boesemani", "Boeseman's rainbowfish", "Melanotaeniidae", "fusiform", 11, 6, "mid", 23, 29, 7, 8.5, 8, 20, "moderate", "peaceful", "omnivore", "yes", "no", 240, 120],
  ["Pseudomugil furcatus", "forktail blue-eye", "Pseudomugilidae", "fusiform", 6, 8, "top", 24, 27, 6, 8, 5, 15, "moderate", "peaceful", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Pseudomugil gertrudae", "spotted blue-eye", "Pseudomugilidae", "fusiform", 3.5, 8, "top", 23, 29, 5.5, 7.5, 3, 12, "gentle", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Iriatherina werneri", "threadfin rainbowfish", "Melanotaeniidae", "fusiform", 5, 8, "top", 24, 29, 6, 8, 4, 12, "still", "peaceful", "micro-carnivore", "yes", "yes", 54, 60],
  ["Betta splendens", "Siamese fighting fish", "Osphronemidae", "fusiform", 6.5, 1, "top", 24, 30, 6, 8, 2, 20, "still", "territorial", "carnivore", "yes", "adults only", 54, 60],
  ["Trichogaster lalius", "dwarf gourami", "Osphronemidae", "deep", 8, 2, "top", 24, 28, 6, 8, 3, 18, "gentle", "territorial", "omnivore", "yes", "adults only", 112, 80],
  ["Trichogaster chuna", "honey gourami", "Osphronemidae", "deep", 5, 2, "top", 22, 28, 6, 8, 3, 18, "still", "peaceful", "omnivore", "yes", "adults only", 54, 60],
  ["Trichopodus leerii", "pearl gourami", "Osphronemidae", "deep", 12, 4, "top", 24, 28, 6, 8, 3, 18, "gentle", "peaceful", "omnivore", "yes", "no", 240, 120],
  ["Trichopsis pumila", "sparkling gourami", "Osphronemidae", "fusiform", 4, 4, "mid", 24, 28, 6, 7.5, 2, 18, "still", "semi", "carnivore", "yes", "adults only", 54, 60],
  ["Mikrogeophagus ramirezi", "ram cichlid", "Cichlidae", "deep", 5, 2, "bottom", 26, 30, 5, 7, 1, 10, "gentle", "territorial", "omnivore", "yes", "adults only", 112, 80],
  ["Apistogramma cacatuoides", "cockatoo dwarf cichlid", "Cichlidae", "deep", 8, 2, "bottom", 23, 28, 6, 7.5, 2, 15, "gentle", "territorial", "carnivore", "yes", "no", 112, 80],
  ["Apistogramma borellii", "umbrella dwarf cichlid", "Cichlidae", "deep", 6, 2, "bottom", 20, 27, 6, 8, 2, 15, "gentle", "territorial", "carnivore", "yes", "adults only", 54, 60],
  ["Pelvicachromis pulcher", "kribensis", "Cichlidae", "fusiform", 10, 2, "bottom", 23, 27, 5.5, 8, 3, 18, "gentle", "territorial", "omnivore", "partly", "no", 200, 100],
  ["Pterophyllum scalare", "freshwater angelfish", "Cichlidae", "disc", 12, 4, "mid", 24, 29, 6, 8, 3, 15, "gentle", "predatory", "carnivore", "yes", "no", 240, 120],
  ["Symphysodon aequifasciatus", "discus", "Cichlidae", "disc", 17, 5, "mid", 26, 30, 5, 7.5, 1, 12, "gentle", "peaceful", "carnivore", "yes", "no", 375, 150],
  ["Dario dario", "scarlet badis", "Badidae", "elongated", 2, 2, "bottom", 20, 26, 6.5, 7.5, 4, 15, "still", "territorial", "micro-carnivore", "yes", "adults only", 54, 60],
  ["Carinotetraodon travancoricus", "dwarf pufferfish", "Tetraodontidae", "deep", 3, 5, "mid", 23, 28, 6.5, 8, 5, 20, "still", "semi", "carnivore", "yes", "no", 54, 60],
  ["Stiphodon percnopterygionus", "neon goby", "Gobiidae", "fusiform", 5, 4, "bottom", 22, 27, 6.5, 8, 5, 15, "strong", "peaceful", "herbivore", "yes", "yes", 112, 80],
  ["Carassius auratus", "goldfish", "Cyprinidae", "deep", 20, 3, "all", 10, 24, 6, 8.5, 5, 20, "gentle", "peaceful", "omnivore", "no", "no", 375, 150],
  ["Neocaridina davidi", "cherry shrimp", "Atyidae", "shrimp", 2.5, 10, "bottom", 18, 27, 6.5, 8, 6, 15, "gentle", "peaceful", "grazer", "yes", "yes", 20, 35],
  ["Caridina multidentata", "Yamato shrimp", "Atyidae", "shrimp", 5, 5, "bottom", 18, 27, 6.5, 8, 4, 15, "moderate", "peaceful", "grazer", "yes", "yes", 54, 60],
  ["Caridina logemanni", "bee shrimp", "Atyidae", "shrimp", 2.5, 10, "bottom", 18, 24, 5.5, 7, 3, 6, "gentle", "peaceful", "grazer", "yes", "yes", 20, 35],
  ["Caridina babaulti", "babaulti shrimp", "Atyidae", "shrimp", 2.5, 10, "bottom", 22, 27, 6.5, 8, 5, 15, "gentle", "peaceful", "grazer", "yes", "yes", 20, 35],
  ["Atyopsis moluccensis", "bamboo shrimp", "Atyidae", "shrimp", 8, 2, "bottom", 23, 28, 6.5, 8, 3, 15, "strong", "peaceful", "filter-feeder", "yes", "yes", 112, 80],
  ["Palaemon paludosus", "ghost shrimp", "Palaemonidae", "shrimp", 4, 6, "bottom", 18, 27, 6.5, 8, 5, 20, "gentle", "semi", "omnivore", "yes", "adults only", 54, 60],
  ["Neritina natalensis", "zebra nerite snail", "Neritidae", "round snail", 2.5, 1, "bottom", 22, 28, 7, 8.5, 6, 25, "moderate", "peaceful", "herbivore", "yes", "yes", 30, 40],
  ["Clithon corona", "horned nerite snail", "Neritidae", "round snail", 1.5, 1, "bottom", 22, 28, 7, 8.5, 6, 25, "moderate", "peaceful", "herbivore", "yes", "yes", 20, 30],
  ["Planorbella duryi", "ramshorn snail", "Planorbidae", "coiled snail", 2, 1, "all", 18, 28, 6.5, 8.5, 5, 25, "gentle", "peaceful", "grazer", "partly", "yes", 20, 30],
  ["Physella acuta", "bladder snail", "Physidae", "oval snail", 1, 1, "all", 10, 30, 6, 8.5, 3, 30, "gentle", "peaceful", "grazer", "yes", "yes", 10, 25],
  ["Melanoides tuberculata", "Malaysian trumpet snail", "Thiaridae", "tower snail", 2.5, 1, "bottom", 18, 30, 6.5, 8.5, 5, 30, "gentle", "peaceful", "detritivore", "yes", "yes", 20, 30],
  ["Pomacea diffusa", "mystery snail", "Ampullariidae", "round snail", 5, 1, "all", 20, 28, 7, 8.5, 8, 25, "gentle", "peaceful", "herbivore", "partly", "yes", 54, 60],
  ["Anentome helena", "assassin snail", "Nassariidae", "cone snail", 2.5, 1, "bottom", 22, 27, 7, 8, 6, 20, "gentle", "predatory", "carnivore", "yes", "adults only", 30, 40],
];

const notes: Readonly<Record<string, string>> = {
  "Pangio kuhlii": "eel-shaped but round and full, so weighed as elongated; most stock in the trade is P. semicincta",
  "Carassius auratus": "bears little oxygen, which its tank mates do not",
  "Betta splendens": "one male only; breathes air as well, its tank mates and the filter do not",
  "Caridina logemanni": "sold as Caridina cf. cantonensis",
  "Caridina multidentata": "larvae need brackish water",
  "Atyopsis moluccensis": "sieves its food from a current",
  "Pomacea diffusa":
    "the whole genus is banned in the European Union (Decision 2012/697/EU, from memory); check the law of the place",
  "Anentome helena": "eats other snails",
  "Carinotetraodon travancoricus": "eats snails and bites fins",
  "Pterophyllum scalare": "eats very small fish and shrimp when grown; needs depth as well as length",
};

const synonyms: Readonly<Record<string, readonly string[]>> = {
  "Hyphessobrycon megalopterus": ["Megalamphodus megalopterus"],
  "Hemigrammus rhodostomus": ["Petitella rhodostoma"],
  "Trigonostigma heteromorpha": ["Rasbora heteromorpha"],
  "Trigonostigma espei": ["Rasbora espei"],
  "Brevibora dorsiocellata": ["Rasbora dorsiocellata"],
  "Danio margaritatus": ["Celestichthys margaritatus"],
  "Puntigrus tetrazona": ["Puntius tetrazona", "Barbus tetrazona"],
  "Pethia conchonius": ["Puntius conchonius"],
  "Desmopuntius pentazona": ["Puntius pentazona"],
  "Ambastaia sidthimunki": ["Botia sidthimunki"],
  "Chromobotia macracanthus": ["Botia macracanthus"],
  "Trichogaster lalius": ["Colisa lalia"],
  "Trichogaster chuna": ["Colisa chuna"],
  "Trichopodus leerii": ["Trichogaster leerii"],
  "Mikrogeophagus ramirezi": ["Papiliochromis ramirezi", "Microgeophagus ramirezi"],
  "Neocaridina davidi": ["Neocaridina heteropoda"],
  "Caridina multidentata": ["Caridina japonica"],
  "Physella acuta": ["Physa acuta"],
  "Anentome helena": ["Clea helena"],
};

function kindOf(body: BodyClass): AnimalKind {
  if (body === "shrimp") return "shrimp";
  return body.endsWith("snail") ? "snail" : "fish";
}

function fact(row: Row): AnimalFact {
  const [name, common, family, bodyClass, length, groupMin, layer, ...afterBody] = row;
  const [temperatureMin, temperatureMax, phMin, phMax, ghMin, ghMax, flow, ...afterWater] = afterBody;
  const [temperament, diet, plantSafe, shrimpSafe, minTankL, tankLength] = afterWater;
  const note = notes[name];
  return {
    id: idOf(name),
    name,
    common,
    kind: kindOf(bodyClass),
    family,
    bodyClass,
    adultLength: length / 100,
    groupMin,
    layer,
    temperatureMin,
    temperatureMax,
    phMin,
    phMax,
    ghMin,
    ghMax,
    flow,
    temperament,
    diet,
    plantSafe,
    shrimpSafe,
    minTankL,
    minTankLength: tankLength / 100,
    how: "common practice",
    ...(note === undefined ? {} : { note }),
    synonyms: synonyms[name] ?? [],
  };
}

/** All animals, in the order of the table: fish by kinship, then shrimp, then snails. */
export const animals: readonly AnimalFact[] = rows.map(fact);

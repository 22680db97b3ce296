/**
 * The looks of the drawings: colours as custom properties in a light (paper) and a dark (room) set, and one sheet of
 * rules. Screen and paper take the same. Every colour is a design value.
 */

import { scapeCss } from "./scape-styles.ts";

export type Tokens = Readonly<Record<`--${string}`, string>>;

/** Paper and ink. */
export const lightTokens: Tokens = {
  "--paper": "#F6F3EA",
  "--raised": "#FCFAF4",
  "--ink": "#14241F",
  "--ink-2": "#44544D",
  "--ink-3": "#5B675F",
  "--line": "#D8D3C4",
  "--water": "#2E6F77",
  "--water-tint": "#DCEBEA",
  "--leaf": "#3D6A28",
  "--leaf-tint": "#E1EBD6",
  "--drag": "#AB4818",
  "--warn": "#8A2C2C",
  "--day": "#FDFBF3",
  "--night": "rgba(34,49,58,.10)",
  "--doubt": "#CFE3E1",
  "--lamp": "#F3E6BC",
  "--d-water": "#D3E5E4",
  "--d-lit": "#EDF4ED",
  "--d-engraved": "#8FB3B2",
  "--d-beam": "#FBF1CF",
  "--d-led": "#DDB63C",
  "--d-soil": "#D3C19A",
  "--d-soil-back": "#E3D7BA",
  "--d-sand": "#EFE3C4",
  "--d-sand-back": "#F2EAD3",
  "--d-gravel": "#EDE5D0",
  "--d-gravel-back": "#E7DEC8",
  "--d-grain": "#735F3C",
  "--d-grain-back": "#A99770",
  "--d-stone-1": "#A9B0AC",
  "--d-stone-2": "#8A938F",
  "--d-stone-3": "#6C7573",
  "--d-stone-4": "#555E5D",
  "--d-stone-line": "#26302D",
  "--d-wood": "#C6A878",
  "--d-wood-shade": "#9A774B",
  "--d-wood-light": "#E0CAA0",
  "--d-wood-line": "#4F3A1F",
  "--d-pale": "#BAD2AA",
  "--d-pale-far": "#C6DAB9",
  "--d-pale-line": "#6C9163",
  "--d-pine": "#4C7E57",
  "--d-pine-far": "#86AC86",
  "--d-pine-line": "#1F402A",
  "--d-olive": "#95A552",
  "--d-olive-far": "#B9C58A",
  "--d-olive-line": "#4C561D",
  "--d-bronze": "#A69D62",
  "--d-bronze-far": "#C0B98C",
  "--d-bronze-line": "#474521",
  "--d-fresh": "#6D9E48",
  "--d-fresh-far": "#A0C182",
  "--d-fresh-line": "#2E5219",
  "--d-grass": "#6F9A4E",
  "--d-grass-far": "#A9C78F",
  "--d-grass-line": "#3F6C29",
  "--d-moss": "#5D7F3A",
  "--d-moss-far": "#93AD77",
  "--d-moss-line": "#2E4718",
  "--d-wine": "#A8675A",
  "--d-wine-far": "#C9A093",
  "--d-wine-line": "#552A22",
  "--d-jade": "#6CA585",
  "--d-jade-far": "#A1C6AF",
  "--d-jade-line": "#235039",
  "--d-root": "#7C7A55",
  "--d-animal-0": "#9A4B42",
  "--d-animal-1": "#B3A688",
  "--d-animal-2": "#5F7F92",
  "--d-shrimp": "#B0564C",
  "--d-snail": "#A98A57",
  "--d-animal-line": "#1D1512",
  "--d-glass": "#CFE0DD",
  "--d-bore": "#F3F8F6",
  "--d-bubble": "#4F858C",
};

/** The dark room: dim, low in blue. */
export const roomTokens: Tokens = {
  "--paper": "#10191A",
  "--raised": "#162223",
  "--ink": "#E6E2D6",
  "--ink-2": "#A9B3AD",
  "--ink-3": "#8C9891",
  "--line": "#2B3A3A",
  "--water": "#6FB3B5",
  "--water-tint": "#1B2E2F",
  "--leaf": "#9BC27A",
  "--leaf-tint": "#22301F",
  "--drag": "#E58A55",
  "--warn": "#E58C84",
  "--day": "#1A2726",
  "--night": "rgba(0,0,0,.34)",
  "--doubt": "#24403F",
  "--lamp": "#3B3520",
  "--d-water": "#142625",
  "--d-lit": "#21383440",
  "--d-engraved": "#3F6463",
  "--d-beam": "#312D1B",
  "--d-led": "#C9A94E",
  "--d-soil": "#3A3324",
  "--d-soil-back": "#2F2A1F",
  "--d-sand": "#514832",
  "--d-sand-back": "#433C2B",
  "--d-gravel": "#4A422F",
  "--d-gravel-back": "#38321F",
  "--d-grain": "#94825A",
  "--d-grain-back": "#6E6143",
  "--d-stone-1": "#6A7371",
  "--d-stone-2": "#545D5C",
  "--d-stone-3": "#414A49",
  "--d-stone-4": "#323A3A",
  "--d-stone-line": "#0F1616",
  "--d-wood": "#7C6545",
  "--d-wood-shade": "#57452D",
  "--d-wood-light": "#99805A",
  "--d-wood-line": "#241B10",
  "--d-pale": "#34513B",
  "--d-pale-far": "#2C4533",
  "--d-pale-line": "#5A7F5B",
  "--d-pine": "#3E6D4A",
  "--d-pine-far": "#2E4F3B",
  "--d-pine-line": "#14261A",
  "--d-olive": "#707E3E",
  "--d-olive-far": "#4A5832",
  "--d-olive-line": "#272E11",
  "--d-bronze": "#78723F",
  "--d-bronze-far": "#565230",
  "--d-bronze-line": "#262510",
  "--d-fresh": "#568239",
  "--d-fresh-far": "#3C5C2F",
  "--d-fresh-line": "#1B3110",
  "--d-grass": "#54803F",
  "--d-grass-far": "#3A5638",
  "--d-grass-line": "#628F49",
  "--d-moss": "#4A6A30",
  "--d-moss-far": "#374F28",
  "--d-moss-line": "#87A860",
  "--d-wine": "#84483D",
  "--d-wine-far": "#5B3831",
  "--d-wine-line": "#2C130E",
  "--d-jade": "#47795D",
  "--d-jade-far": "#345645",
  "--d-jade-line": "#122A1E",
  "--d-root": "#8C8A62",
  "--d-animal-0": "#B5675C",
  "--d-animal-1": "#968C73",
  "--d-animal-2": "#6F8C99",
  "--d-shrimp": "#B9695E",
  "--d-snail": "#93794C",
  "--d-animal-line": "#0E0B0A",
  "--d-glass": "#27403F",
  "--d-bore": "#2A3B3A",
  "--d-bubble": "#7FAFB0",
};

const declared = (tokens: Tokens): string =>
  Object.entries(tokens)
    .map(([name, value]) => `${name}:${value}`)
    .join(";");

/** Both sets: the light one by default, the dark one inside `[data-theme=room]`. */
export const tokenCss = `:root{${declared(lightTokens)}}\n[data-theme=room]{${declared(roomTokens)}}\n`;

const tones = ["pale", "pine", "olive", "bronze", "fresh", "grass", "moss", "wine", "jade"];
const toneRules = tones.map((t) => `.d-${t}{--f:var(--d-${t});--g:var(--d-${t}-far);--l:var(--d-${t}-line)}`).join("");
const groundRules = ["soil", "sand", "gravel"]
  .map((m) => `.d-${m} .d-ground{fill:var(--d-${m})}.d-${m} .d-ground-back{fill:var(--d-${m}-back)}`)
  .join("");
const stoneRules = [1, 2, 3, 4].map((k) => `.d-tone-${k}{fill:var(--d-stone-${k})}`).join("");
const strengthRules = [0, 1, 2, 3, 4].map((k) => `.d-strength-${k}{--s:${(0.22 + 0.085 * k).toFixed(3)}}`).join("");

const SANS = `"Source Sans 3 Variable","Source Sans 3",sans-serif`;
const SERIF = `"Source Serif 4 Variable","Source Serif 4",serif`;

const sectionCss = `.d-section{display:block;width:100%;height:auto;font-family:${SANS};font-variant-numeric:tabular-nums lining-nums;fill:var(--ink)}
.d-section path{stroke-linejoin:round}
.d-water{fill:var(--d-water)}.d-lit{fill:var(--d-lit);fill-opacity:calc(var(--s)*1.25)}.d-beam{fill:var(--d-beam);fill-opacity:var(--s)}
${strengthRules}
.d-engraved{fill:none;stroke:var(--d-engraved);stroke-width:.5;opacity:.6}
.d-surface{fill:none;stroke:var(--water);stroke-width:1.15}
${groundRules}
.d-slope-line{fill:none;stroke:var(--d-grain);stroke-width:.7}
.d-grain,.d-grain-large,.d-grain-back,.d-open,.d-open-in,.d-stone-dots,.d-eye,.d-fluid-bulb{fill:none;stroke-linecap:round}
.d-grain{stroke:var(--d-grain);stroke-width:1.15;opacity:.75}.d-grain-large{stroke:var(--d-grain);stroke-width:2.1;opacity:.7}.d-grain-back{stroke:var(--d-grain-back);stroke-width:1.15;opacity:.75}
.d-open{stroke:var(--d-grain)}.d-open-in{stroke:var(--d-gravel)}
.d-layer-line{fill:none;stroke:var(--d-grain);stroke-width:.6}.d-cut{fill:none;stroke:var(--ink);stroke-width:1.3}
.d-stone{stroke:var(--d-stone-line);stroke-width:.75}${stoneRules}
.d-mass{stroke-width:1.5;paint-order:stroke}.d-face{stroke:none}.d-crease{fill:none;stroke:var(--d-stone-line);stroke-width:.55;opacity:.85;stroke-linecap:round}
.d-bed{fill:none;stroke:var(--d-stone-line);stroke-width:.5;opacity:.75}.d-stone-dots{stroke:var(--d-stone-line);stroke-width:.9;opacity:.7}
.d-wood{fill:var(--d-wood);stroke:var(--d-wood-line);stroke-width:1.9;paint-order:stroke}.d-wood-shade{fill:var(--d-wood-shade);opacity:.62}.d-wood-light{fill:none;stroke:var(--d-wood-light);stroke-width:1.2;stroke-linecap:round;opacity:.8}
.d-bark,.d-knot{fill:none;stroke:var(--d-wood-line);stroke-width:.45;opacity:.8;stroke-linecap:round}.d-knot{stroke-width:.6}
${toneRules}
.d-leaf{fill:var(--f);stroke:var(--l);stroke-width:.42}.d-under{fill:color-mix(in srgb,var(--f) 80%,var(--l))}.d-young{fill:color-mix(in srgb,var(--f) 76%,var(--g))}.d-vein{fill:none;stroke:var(--l);stroke-width:.42;opacity:.85}
.d-stem,.d-stalk{fill:none;stroke:var(--l);stroke-width:.75;stroke-linecap:round}.d-stalk{stroke-width:1}.d-rhizome{fill:none;stroke:var(--l);stroke-width:1.7;stroke-linecap:round}
.d-thread{fill:none;stroke:var(--f);stroke-width:.8;stroke-linecap:round}.d-moss .d-thread,.d-pad+.d-thread{stroke:var(--l);stroke-width:.6}.d-pale-thread.d-thread{stroke:var(--g)}.d-pad{fill:var(--f);opacity:.85}
.d-far .d-leaf{fill:var(--g);stroke:var(--f)}.d-far .d-under{fill:color-mix(in srgb,var(--g) 84%,var(--f))}.d-far .d-vein,.d-far .d-stem,.d-far .d-stalk{stroke:var(--f)}.d-far .d-thread{stroke:var(--g)}
.d-pale .d-leaf{stroke:var(--l)}.d-pale .d-vein{opacity:.5}
.d-blades{fill:none;stroke-width:.85;stroke-linecap:round}.d-rank-0{stroke:var(--g)}.d-rank-1{stroke:var(--f)}.d-rank-2{stroke:var(--l)}
.d-bulb{fill:var(--d-snail);stroke:var(--d-wood-line);stroke-width:.6}.d-root{fill:none;stroke:var(--d-root);stroke-width:.6}.d-root-hair{fill:none;stroke:var(--d-root);stroke-width:.35}
.d-animal{--a:var(--d-animal-0)}.d-shade-1{--a:var(--d-animal-1)}.d-shade-2{--a:var(--d-animal-2)}.d-catfish{--a:var(--d-animal-1)}.d-shrimp{--a:var(--d-shrimp)}.d-snail{--a:var(--d-snail)}
.d-body{fill:var(--a);stroke:var(--d-animal-line);stroke-width:.4}.d-fin{fill:var(--a);opacity:.6}.d-mark{fill:none;stroke:var(--d-animal-line);stroke-width:1;stroke-linecap:round}.d-deep .d-mark,.d-eel .d-mark{stroke-width:.6;opacity:.6}.d-catfish .d-mark{stroke-width:.9;stroke-dasharray:2.2 1.4}
.d-limb{fill:none;stroke:var(--ink);stroke-width:.4;stroke-linecap:round}.d-eye{stroke:var(--d-animal-line);stroke-width:1.3}
.d-glass{fill:var(--d-glass);stroke:var(--ink);stroke-width:.9}.d-knob{fill:var(--raised);stroke:var(--ink);stroke-width:.8}
.d-pipe{fill:none;stroke:var(--ink-2)}.d-bore{fill:none;stroke:var(--d-bore)}.d-slit{fill:none;stroke:var(--ink-2);stroke-width:.8}.d-pipe-end{stroke:var(--ink-2);stroke-width:1.5}.d-bell{fill:var(--d-bore);stroke:var(--ink-2);stroke-width:.8}.d-bell-rim{fill:none;stroke:var(--ink-2);stroke-width:.6}
.d-flow{fill:none;stroke:var(--water);stroke-width:.7;stroke-dasharray:9 3 2 3;opacity:.8}.d-break{fill:none;stroke:var(--ink-2);stroke-width:1}
.d-hose,.d-cord{fill:none;stroke:var(--ink-2);stroke-width:1.5;stroke-linecap:round}.d-cord{stroke-width:1.1}.d-disc{fill:var(--raised);stroke:var(--ink);stroke-width:.7}.d-bubbles circle{fill:none;stroke:var(--d-bubble);stroke-width:.55}
.d-heater{fill:var(--d-bore);fill-opacity:.85;stroke:var(--ink-2);stroke-width:.8}.d-cap,.d-air-stone{fill:var(--ink-2);stroke:var(--ink);stroke-width:.5}.d-coil{fill:none;stroke:var(--drag);stroke-width:.8}
.d-thermometer{fill:var(--raised);stroke:var(--ink-2);stroke-width:.7}.d-scale{fill:none;stroke:var(--ink-2);stroke-width:.5}.d-fluid{fill:none;stroke:var(--warn);stroke-width:1.5}.d-fluid-bulb{stroke:var(--warn);stroke-width:4.4}
.d-lamp{fill:var(--raised);stroke:var(--ink);stroke-width:.9}.d-lamp-detail{fill:none;stroke:var(--ink-3);stroke-width:.6}.d-led{fill:var(--d-led)}.d-cable{fill:none;stroke:var(--ink-2);stroke-width:.7}
.d-stand{stroke:var(--ink);stroke-width:1.8;fill:none}.d-dimension{fill:none;stroke:var(--ink-3);stroke-width:.7}.d-level{fill:none;stroke:var(--water);stroke-width:1}
.d-label{font-size:12px;fill:var(--ink-2)}.d-strong{font-weight:600;fill:var(--ink)}.d-note{font-size:11.5px;fill:var(--ink-3)}
.d-value{font-size:21px;font-weight:500;fill:var(--ink)}.d-unit{font-size:12px;font-weight:400;fill:var(--ink-2)}.d-word{font-size:12px;fill:var(--ink-3)}.d-low{font-size:75%}
.d-lead{fill:none;stroke:var(--ink);stroke-width:.6}.d-lead-dot{fill:var(--ink)}
.d-key{fill:var(--raised);stroke:var(--ink);stroke-width:.6}.d-key-mark,.d-key-number{font-size:11.5px;font-weight:600;fill:var(--ink)}.d-key-name{font:italic 400 12.5px ${SERIF};fill:var(--ink-2)}
.d-hit{fill:transparent}.d-bar{fill:var(--ink)}.d-warn .d-word{fill:var(--warn);font-weight:600}.d-hatch{fill:none;stroke:var(--warn);stroke-width:1.1}
.d-mark-disc{fill:var(--ink)}.d-mark-letter{font-size:10.5px;font-weight:600;fill:var(--paper)}
`;

/** The rules; they need the tokens. */
export const drawingCss = sectionCss + scapeCss;

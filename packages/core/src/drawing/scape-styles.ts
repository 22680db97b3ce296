/** Rules for the drawings of a scape, on top of those of the section. */

const hazed = (colour: string): string => `color-mix(in srgb,var(${colour}),var(--d-water) var(--h,0%))`;

const stoneRules = [1, 2, 3, 4].map((k) => `.d-stone-${k}{fill:${hazed(`--d-stone-${k}`)}}`).join("");
const hazeRules = [0, 1, 2, 3, 4].map((k) => `.d-back-${k}{--h:${k * 8}%}`).join("");

export const scapeCss = `${hazeRules}
.d-solid{stroke:none}.d-stone-base{fill:${hazed("--d-stone-3")}}${stoneRules}
.d-wood-base,.d-wood-2{fill:${hazed("--d-wood")}}.d-wood-1{fill:color-mix(in srgb,${hazed("--d-wood")} 72%,${hazed("--d-wood-light")})}.d-wood-3{fill:color-mix(in srgb,${hazed("--d-wood")} 45%,${hazed("--d-wood-shade")})}
.d-crease,.d-rim{fill:none;stroke-linecap:round}.d-crease{stroke-width:.6}.d-rim{stroke-width:1.15}.d-stone-crease,.d-stone-rim{stroke:${hazed("--d-stone-line")}}.d-wood-crease,.d-wood-rim{stroke:${hazed("--d-wood-line")}}
.d-foot{fill:none;stroke:var(--d-grain);stroke-width:.5}.d-foot-grain{fill:none;stroke:var(--d-grain);stroke-width:1.5;stroke-linecap:round;opacity:.85}
.d-scape .d-bed,.d-scape .d-stone-dots{stroke:${hazed("--d-stone-line")}}.d-scape .d-bark{stroke:${hazed("--d-wood-line")};stroke-width:.55}
.d-bed-bare{fill:var(--raised)}.d-bed-soil{fill:color-mix(in srgb,var(--d-soil-back) 46%,var(--raised))}.d-bed-sand{fill:color-mix(in srgb,var(--d-sand) 60%,var(--raised))}.d-bed-gravel{fill:color-mix(in srgb,var(--d-gravel) 70%,var(--raised))}.d-bed-edge{stroke:var(--d-grain);stroke-width:.5}
.d-plan-soil,.d-plan-sand,.d-plan-gravel,.d-plan-gravel-in{fill:none;stroke-linecap:round}.d-plan-soil{stroke:var(--d-grain-back);stroke-width:1.1;opacity:.75}.d-plan-soil.d-large{stroke-width:2}.d-plan-sand{stroke:var(--d-grain-back);stroke-width:.8;opacity:.7}.d-plan-gravel{stroke:var(--d-grain-back);stroke-width:4}.d-plan-gravel-in{stroke:var(--d-gravel);stroke-width:2.9}.d-plan-gravel.d-large{stroke-width:5.4}.d-plan-gravel-in.d-large{stroke-width:4.2}
.d-zone-area{fill:color-mix(in srgb,var(--leaf-tint) 62%,color-mix(in srgb,var(--f) 55%,transparent));fill-opacity:.92}.d-zone-area,.d-zone-line{stroke:var(--ink);stroke-width:.85;stroke-dasharray:5 2.5}.d-zone-line{fill:none}
.d-zone-mark{fill:none;stroke:var(--l);stroke-width:.6;stroke-linecap:round;opacity:.9}.d-strong-mark{stroke-width:.9}.d-pad-leaf{fill:var(--f);stroke:var(--l);stroke-width:.5;fill-opacity:.75}
[data-theme=room] .d-zone-mark{stroke:color-mix(in srgb,var(--f) 60%,var(--leaf))}
.d-height-line{fill:none;stroke:var(--d-grain);stroke-width:.9;stroke-dasharray:.9 2.3;stroke-linecap:round}.d-height-figure{font:italic 400 10.5px "Source Serif 4 Variable","Source Serif 4",serif;fill:color-mix(in srgb,var(--d-grain) 70%,var(--ink))}
.d-light-line{fill:none;stroke:var(--water);stroke-width:1.3}.d-light-figure{font-size:10.5px;font-weight:600;fill:var(--water)}
.d-halo{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
.d-letter{font:italic 400 16.5px "Source Serif 4 Variable","Source Serif 4",serif;fill:var(--ink)}.d-name{font-size:11.5px;font-weight:600;fill:var(--ink)}
.d-step{fill:none;stroke:var(--ink-2);stroke-width:1.3}.d-step-tick{fill:none;stroke:var(--ink-2);stroke-width:.7}
.d-lamp-outline{fill:none;stroke:var(--ink-3);stroke-width:.9;stroke-dasharray:8 3}
.d-third{fill:none;stroke:var(--ink);stroke-width:.6;stroke-dasharray:1 4;opacity:.6}.d-golden{fill:none;stroke:var(--ink);stroke-width:.6;stroke-dasharray:9 3 1.5 3;opacity:.5}
.d-tick{fill:none;stroke:var(--ink);stroke-width:1.1}.d-dashed{stroke-dasharray:3 2.5}
.d-scape .d-leaf{fill:${hazed("--f")};stroke:${hazed("--l")};stroke-width:.45}.d-scape .d-under{fill:color-mix(in srgb,${hazed("--f")} 78%,${hazed("--l")})}.d-scape .d-young{fill:color-mix(in srgb,${hazed("--f")} 76%,var(--g))}.d-scape .d-vein,.d-scape .d-stem,.d-scape .d-stalk{stroke:${hazed("--l")}}.d-scape .d-thread{stroke:${hazed("--f")};stroke-width:.9}.d-scape .d-rank-0{stroke:${hazed("--g")}}.d-scape .d-rank-1{stroke:${hazed("--f")}}.d-scape .d-rank-2{stroke:${hazed("--l")}}
.d-water-side{fill:color-mix(in srgb,var(--d-water) 62%,var(--raised))}.d-box-edge{fill:none;stroke:var(--d-engraved);stroke-width:.7}.d-surface-plane{fill:var(--raised);opacity:.3}
.d-rise{fill:${hazed("--b")};stroke:none}.d-rise-soil{--b:var(--d-soil-back)}.d-rise-sand{--b:var(--d-sand-back)}.d-rise-gravel{--b:var(--d-gravel-back)}.d-rise-bare{--b:var(--d-water)}.d-rise-line{fill:none;stroke:${hazed("--d-grain-back")};stroke-width:.6}.d-rise-grain{fill:none;stroke:var(--d-grain-back);stroke-width:1.1;stroke-linecap:round}.d-rise-grain.d-large{stroke-width:1.9}
.d-horizon{fill:none;stroke:var(--water);stroke-width:.8;stroke-dasharray:12 3 2 3}.d-balance{fill:var(--ink-2)}
.d-key-letter{font:italic 400 13px "Source Serif 4 Variable","Source Serif 4",serif;fill:var(--ink)}
.d-hit{pointer-events:all}.d-hit-line{fill:none;stroke:transparent;stroke-width:9;pointer-events:stroke}.d-hit-group{cursor:pointer}
.d-selected{fill:none;stroke:var(--drag);stroke-width:1.2}.d-selected-under{fill:none;stroke:var(--paper);stroke-width:3.2;opacity:.7}.d-handle{fill:var(--raised);stroke:var(--drag);stroke-width:1.4}.d-selected,.d-selected-under{pointer-events:none}
`;

/** How each kind of thing is inked, in GLSL: lengths in m in the tank's own coordinates, line widths in picture dots. */

const noise = `
float hash1(vec2 p){ vec3 q = fract(vec3(p.xyx)*.1031); q += dot(q, q.yzx+33.33); return fract((q.x+q.y)*q.z); }
vec2 hash2(vec2 p){ vec3 q = fract(vec3(p.xyx)*vec3(.1031,.1030,.0973)); q += dot(q, q.yzx+33.33); return fract((q.xx+q.yz)*q.zy); }
float hash3(vec3 p){ p = fract(p*.1031); p += dot(p, p.zyx+31.32); return fract((p.x+p.y)*p.z); }
float wave(float t, float id){ return sin(t*1.7+id*12.9)+.6*sin(t*3.9+id*37.7)+.4*sin(t*8.3+id*71.3); }
`;

/** Things further back are paler, as through more water. */
const fade = `
uniform vec2 uFade;
float deep(float away){ return clamp((away-uFade.x)/(uFade.y-uFade.x), 0., 1.); }
`;

export const solidVertex = `
attribute vec3 outward;
varying vec3 vPlace; varying vec3 vNormal; varying float vAway;
void main(){
  vPlace = position; vNormal = normal;
  vec4 seen = modelViewMatrix*vec4(position, 1.);
  vAway = -seen.z;
  gl_Position = projectionMatrix*seen;
}`;

/** Stones in four tones with their beds or grains, wood in three. */
export const solidFragment = `
${noise}${fade}
uniform vec3 uTone0, uTone1, uTone2, uTone3, uLine, uWater;
uniform vec3 uGrain; uniform float uStyle, uBeds, uRatio;
varying vec3 vPlace; varying vec3 vNormal; varying float vAway;
vec3 toned(float t){ return t < 1. ? mix(uTone0,uTone1,t) : t < 2. ? mix(uTone1,uTone2,t-1.) : mix(uTone2,uTone3,t-2.); }
void main(){
  vec3 n = normalize(vNormal);
  float lit = dot(n, normalize(vec3(-.6,-.36,.71)));
  float dark = clamp((.84-lit)*2., 0., 3.);
  float step4 = floor(dark+.5);
  vec3 colour = toned(uStyle > 2.5 ? mix(smoothstep(.35,.65,fract(dark))+floor(dark), dark, .25) : mix(step4, dark, .3));
  float ink = 0.;
  if (uStyle < 1.5) {
    float s = dot(vPlace, uGrain)/uBeds;
    vec3 run = normalize(cross(uGrain, abs(uGrain.z) > .8 ? vec3(.9,.3,.1) : vec3(.1,.2,1.)));
    float t = dot(vPlace, run)/uBeds;
    s += .12*wave(t*.16, 0.);
    float w = fwidth(s);
    float id = floor(s+.5);
    float flat_ = abs(dot(n, uGrain));
    // single strokes that begin and end, more of them where it is dark
    float reach = uStyle < .5 ? .25+.32*dark : -.75+.5*dark;
    float on = smoothstep(-.25, .1, reach + .55*wave(t*.22*(.7+hash1(vec2(id,3.))), id));
    float wide = (.42+.5*hash1(vec2(id,9.)))*uRatio*(uStyle < .5 ? 1. : .8);
    ink = on*(1.-smoothstep(wide*.55, wide*1.15, abs(s-id)/max(w,1e-5)));
    ink *= (1.-smoothstep(.16,.34,w))*(1.-smoothstep(.88,.97,flat_))*.82;
  } else if (uStyle < 2.5) {
    vec3 q = vPlace/.0036; vec3 id = floor(q);
    float d = length(fract(q)-.5-.3*(vec3(hash3(id),hash3(id+5.),hash3(id+9.))-.5));
    float w = length(fwidth(q));
    ink = step(hash3(id+2.), .1+.24*dark)*(1.-smoothstep(.16,.2+.5*w,d))*(1.-smoothstep(.5,1.,w))*.75;
  }
  colour = mix(colour, uLine, ink);
  gl_FragColor = vec4(mix(colour, uWater, .3*deep(vAway)), 1.);
}`;

/** The outline of a solid: its inside, pushed outwards by so many dots. */
export const hullVertex = `
attribute vec3 outward;
uniform vec2 uPixel; uniform float uWide, uRatio;
varying float vAway; varying vec3 vPlace;
void main(){
  vPlace = position;
  vec4 seen = modelViewMatrix*vec4(position, 1.);
  vAway = -seen.z;
  gl_Position = projectionMatrix*seen;
  vec2 way = (projectionMatrix*vec4(normalMatrix*outward, 0.)).xy;
  float size = length(way/uPixel);
  if (size > 1e-6) gl_Position.xy += way/size*uWide*uRatio*gl_Position.w;
}`;

export const lineVertex = `
uniform float uNearer;
varying float vAway; varying vec3 vPlace;
void main(){
  vPlace = position;
  vec4 seen = modelViewMatrix*vec4(position, 1.);
  vAway = -seen.z;
  gl_Position = projectionMatrix*seen;
  gl_Position.z -= uNearer*gl_Position.w;
}`;

export const lineFragment = `
${fade}
uniform vec3 uLine, uWater; uniform float uAlpha, uDash, uPale;
varying float vAway; varying vec3 vPlace;
void main(){
  if (uDash > 0. && fract((vPlace.x+vPlace.y)/uDash) > .6) discard;
  gl_FragColor = vec4(mix(uLine, uWater, uPale*deep(vAway)), uAlpha);
}`;

export const plantVertex = `
attribute vec4 marks;
attribute float tint;
uniform vec3 uLow, uHigh;
varying vec4 vMarks; varying float vTint, vAway, vUp;
void main(){
  vec4 place = instanceMatrix*vec4(position, 1.);
  // leaves lie against the panes and under the surface
  place.xyz = clamp(place.xyz, uLow, uHigh);
  vMarks = marks; vTint = tint;
  vUp = (place.z-uLow.z)/max(uHigh.z-uLow.z, .01);
  vec4 seen = viewMatrix*place;
  vAway = -seen.z;
  gl_Position = projectionMatrix*seen;
}`;

/** Leaves with their outline, middle rib and veins; fine parts in the line's own colour. */
export const plantFragment = `
${fade}
uniform vec3 uFill, uFar, uLine, uRoot, uBody, uChosenLine; uniform float uRatio, uChosen;
varying vec4 vMarks; varying float vTint, vAway, vUp;
void main(){
  float u = vMarks.x, v = vMarks.y, kind = vMarks.w;
  float shade = clamp(vMarks.z+.3*(vTint-.5), 0., 1.);
  float away = deep(vAway);
  vec3 line = mix(uLine, uFill, .34*away);
  vec3 fill = shade < .5 ? mix(mix(uFill,uLine,.34), uFill, shade*2.) : mix(uFill, mix(uFill,uFar,.62), shade*2.-1.);
  fill = mix(fill, uFar, .42*away);
  line = mix(line, uChosenLine, uChosen*.85);
  float w = max(fwidth(v), 1e-5);
  float broad = 2./w/uRatio;
  vec3 colour;
  if (kind < .5) {
    float edge = (1.-abs(v))/w/uRatio;
    float ink = (1.-smoothstep(.45,1.15,edge))*smoothstep(1.6,5.,broad)*.92;
    ink = max(ink, (1.-smoothstep(.25,.75,abs(v)/w/uRatio))*smoothstep(7.,13.,broad)*(1.-smoothstep(.86,.94,u))*.8);
    float s = u*7.-abs(v)*.8; float ws = max(fwidth(s),1e-5)*uRatio;
    float vein = (1.-smoothstep(.2,.7,abs(fract(s)-.5)/ws))*smoothstep(20.,34.,broad)*step(abs(v),.82)*step(.1,u)*step(u,.85)*.5;
    colour = mix(v > 0. ? mix(fill,line,.13) : fill, line, max(ink, vein));
  } else if (kind < 1.5) {
    // blades of grass: told apart by their tints, inked on one side
    vec3 blade = shade < .34 ? mix(line,fill,.25+.4*away) : shade < .67 ? mix(uFill,uFar,.3*away) : mix(uFar,uFill,.25);
    blade = mix(blade, uChosenLine, uChosen*.5*step(shade,.34));
    colour = mix(blade, line, step(.35,v)*smoothstep(1.2,2.5,broad)*.55);
  } else if (kind < 2.5) colour = mix(line, fill, .2);
  else if (kind < 3.5) colour = mix(uRoot, uFar, .3*away);
  else colour = mix(uBody, line, .25*(1.-u));
  gl_FragColor = vec4(colour, 1.);
}`;

export const groundVertex = `
attribute vec2 sides;
varying vec3 vPlace, vNormal; varying vec2 vSides; varying float vAway;
void main(){
  vPlace = position; vNormal = normal; vSides = sides;
  vec4 seen = modelViewMatrix*vec4(position, 1.);
  vAway = -seen.z;
  gl_Position = projectionMatrix*seen;
}`;

/** The bed: soil and sand stippled, gravel as open grains; contours on its surface, shade beside the pieces. */
export const groundFragment = `
${noise}${fade}
uniform vec3 uSoil, uSand, uGravel, uSoilBack, uSandBack, uGravelBack, uGrainInk, uGrainBack, uShadeInk, uWater;
uniform sampler2D uCover; uniform vec2 uFloor; uniform float uRatio;
varying vec3 vPlace, vNormal; varying vec2 vSides; varying float vAway;
float dots(vec2 p, float cell, float radius, float share){
  vec2 q = p/cell, id = floor(q);
  float w = length(fwidth(q))*.7;
  vec2 at = .5+.68*(hash2(id)-.5);
  float r = radius*(.6+.8*hash1(id+3.));
  return step(hash1(id+17.), share)*(1.-smoothstep(r-.4*w, r+.6*w, length(fract(q)-at)))*(1.-smoothstep(.35,.8,w));
}
float grains(vec2 p, float cell){
  vec2 q = p/cell, id = floor(q), f = fract(q);
  float near = 9., next = 9.;
  for (int j=-1;j<2;j++) for (int i=-1;i<2;i++) {
    vec2 g = vec2(float(i),float(j));
    float d = length(g+.5+.7*(hash2(id+g)-.5)-f);
    if (d < near) { next = near; near = d; } else if (d < next) next = d;
  }
  float w = length(fwidth(q));
  return (1.-smoothstep(.05,.05+.9*w,next-near))*(1.-smoothstep(.25,.6,w));
}
void main(){
  bool top = vSides.x < .5;
  vec2 p = top ? vPlace.xy : vSides.x < 1.5 ? vPlace.yz : vPlace.xz;
  vec3 share;
  float shade = 0.;
  if (top) {
    vec4 cover = texture2D(uCover, vPlace.xy/uFloor);
    float most = max(cover.r, max(cover.g, cover.b));
    share = step(vec3(most-.001), cover.rgb);
    shade = cover.a;
  } else share = vec3(equal(vec3(vSides.y), vec3(0.,1.,2.)));
  float isSand = share.g, isGravel = share.b*(1.-share.g), isSoil = 1.-isSand-isGravel;
  vec3 colour = top ? uSoilBack*isSoil+uSandBack*isSand+uGravelBack*isGravel : uSoil*isSoil+uSand*isSand+uGravel*isGravel;
  vec3 dot_ = top ? uGrainBack : uGrainInk;
  float ink = 0.;
  if (isSoil > .5) ink = max(dots(p,.0042,.16,.55), max(.8*dots(p*mat2(.8,.6,-.6,.8)+.37,.0031,.15,.4), .9*dots(p*mat2(.6,-.8,.8,.6),.0053,.13,.4)));
  else if (isSand > .5) ink = .7*dots(p,.0036,.1,.5);
  else ink = .8*grains(p,.0075);
  if (top) {
    float lit = dot(normalize(vNormal), normalize(vec3(-.6,-.36,.71)));
    colour = mix(colour, uSoil*isSoil+uSand*isSand+uGravel*isGravel, clamp((.8-lit)*1.6,0.,1.));
    float s = vPlace.z/.02, w = max(fwidth(s),1e-5)*uRatio;
    ink = max(ink, .45*step(.55,fract((vPlace.x*.9+vPlace.y)/.007))*(1.-smoothstep(.3,.9,abs(fract(s)-.5)/w))*(1.-smoothstep(.1,.25,w)));
  }
  colour = mix(colour, dot_, ink*(top ? .85 : .8)*(1.-.5*deep(vAway)));
  if (shade > .02) {
    float h = (vPlace.x-vPlace.y)/.0032, w = max(fwidth(h),1e-5);
    float stroke = 1.-smoothstep(.34*shade-.5*w, .34*shade+.5*w, abs(fract(h)-.5));
    colour = mix(colour, uShadeInk, .2*shade+.42*stroke*smoothstep(.12,.4,shade)*(1.-smoothstep(.3,.7,w)));
  }
  gl_FragColor = vec4(mix(colour, uWater, top ? .22*deep(vAway) : 0.), 1.);
}`;

export const flatVertex = `
varying vec3 vPlace;
void main(){ vPlace = position; gl_Position = projectionMatrix*modelViewMatrix*vec4(position, 1.); }`;

/** The far panes seen through the water: paler towards the surface, with engraved strokes. */
export const waterFragment = `
${noise}
uniform vec3 uDeep, uLit, uEngraved; uniform float uLine0, uRatio;
varying vec3 vPlace;
void main(){
  float up = clamp(vPlace.z/uLine0, 0., 1.);
  vec3 colour = mix(uDeep, uLit, .75*smoothstep(.1,1.,up));
  float s = vPlace.z/.011, id = floor(s), w = max(fwidth(s),1e-5)*uRatio;
  float t = (vPlace.x+vPlace.y)/.03;
  float on = smoothstep(.9, 1.15, wave(t*.35,id)+.75*up*up);
  float ink = on*(1.-smoothstep(.25,.8,abs(fract(s)-.5)/w))*(1.-smoothstep(.2,.5,w))*smoothstep(.3,.8,up);
  gl_FragColor = vec4(mix(colour, uEngraved, .55*ink), 1.);
}`;

export const tintFragment = `
uniform vec3 uTint; uniform float uAlpha;
void main(){ gl_FragColor = vec4(uTint, uAlpha); }`;

/** Light under a lamp: strongest at its face, gone at the ground. */
export const beamFragment = `
uniform vec3 uTint; uniform float uAlpha; uniform vec2 uSpan;
varying vec3 vPlace;
void main(){
  float share = clamp((vPlace.z-uSpan.x)/(uSpan.y-uSpan.x), 0., 1.);
  gl_FragColor = vec4(uTint, uAlpha*share*(.2+.8*share));
}`;

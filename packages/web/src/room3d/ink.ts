import { BackSide, DoubleSide, FrontSide, type IUniform, ShaderMaterial, type Side, Vector2, Vector3 } from "three";
import { type Colour, colourOf, type Theme } from "./look.ts";

/** What all inks share: they change with the picture's size and the place of the eye. */
export interface SharedInk {
  /** Distance from the eye at which things begin to pale, and at which they are palest, m. */
  readonly uFade: IUniform<Vector2>;
  /** Size of one dot in the picture, of which each side is 2. */
  readonly uPixel: IUniform<Vector2>;
  /** Dots for one CSS pixel. */
  readonly uRatio: IUniform<number>;
}

export const sharedInk = (): SharedInk => ({
  uFade: { value: new Vector2(0, 1) },
  uPixel: { value: new Vector2(0.002, 0.002) },
  uRatio: { value: 1 },
});

const vectorOf = (c: Colour): Vector3 => new Vector3(c[0], c[1], c[2]);

interface InkForm {
  readonly vertex: string;
  readonly fragment: string;
  readonly uniforms?: Readonly<Record<string, unknown>>;
  /** Uniforms that take their colour from a token. */
  readonly tokens?: Readonly<Record<string, `--${string}`>>;
  readonly side?: "front" | "back" | "both";
  readonly see?: boolean;
  /** Filled faces give way to the lines drawn on them. */
  readonly behind?: boolean;
}

const sides: Readonly<Record<"front" | "back" | "both", Side>> = { front: FrontSide, back: BackSide, both: DoubleSide };

/** A material with its tokens, so that it can be dressed for another theme. */
export class Ink {
  readonly material: ShaderMaterial;
  #tokens: Readonly<Record<string, `--${string}`>>;

  constructor(shared: SharedInk, form: InkForm) {
    const own = Object.fromEntries(Object.entries(form.uniforms ?? {}).map(([name, value]) => [name, { value }]));
    this.#tokens = form.tokens ?? {};
    const coloured = Object.fromEntries(Object.keys(this.#tokens).map((name) => [name, { value: new Vector3() }]));
    this.material = new ShaderMaterial({
      vertexShader: form.vertex,
      fragmentShader: form.fragment,
      uniforms: { ...own, ...coloured, ...shared },
      side: sides[form.side ?? "front"],
      transparent: form.see ?? false,
      depthWrite: !(form.see ?? false),
      polygonOffset: form.behind ?? false,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
  }

  set(name: string, value: unknown): void {
    const uniform = this.material.uniforms[name];
    if (!uniform) throw new RangeError(`an ink without ${name}`);
    uniform.value = value;
  }

  /** Colours from other tokens, as a planting's tint. */
  retoken(tokens: Readonly<Record<string, `--${string}`>>): void {
    this.#tokens = { ...this.#tokens, ...tokens };
  }

  dress(theme: Theme): void {
    for (const [name, token] of Object.entries(this.#tokens)) this.set(name, vectorOf(colourOf(theme, token)));
  }

  dispose(): void {
    this.material.dispose();
  }
}

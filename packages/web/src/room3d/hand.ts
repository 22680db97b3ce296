/** The hand on the picture: pointers, wheel and keys told as turning, nearing, shifting, choosing and moving. */

export interface HandTask {
  /** Whether what lies under a place of the picture (CSS pixels from its corner) can be moved, and takes hold of it. */
  grab(x: number, y: number): boolean;
  drag(x: number, y: number): void;
  drop(kept: boolean): void;
  press(x: number, y: number): void;
  /** Shares of the picture's height. */
  turn(across: number, up: number): void;
  shift(across: number, up: number): void;
  near(factor: number): void;
  leave(): void;
  home(): void;
}

/** Movement up to which a press is no drag, CSS pixels. */
const still = 5;

/** One press of an arrow key, share of the picture's height. */
const keyStep = 0.06;

interface Finger {
  x: number;
  y: number;
}

/** Listens on a canvas until it is let go. */
export function watchHand(canvas: HTMLCanvasElement, task: HandTask): () => void {
  const fingers = new Map<number, Finger>();
  let mode: "idle" | "pressed" | "turning" | "moving" | "two" = "idle";
  let holds = false;
  let shifting = false;
  let start: Finger = { x: 0, y: 0 };
  const at = (event: { clientX: number; clientY: number }): Finger => {
    const box = canvas.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const high = (): number => Math.max(1, canvas.clientHeight);
  const span = (): { x: number; y: number; wide: number } => {
    const [a, b] = [...fingers.values()] as [Finger, Finger];
    return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, wide: Math.max(1, Math.hypot(a.x - b.x, a.y - b.y)) };
  };

  const down = (event: PointerEvent): void => {
    if (event.pointerType === "mouse" && event.button > 1) return;
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, at(event));
    if (fingers.size === 1) {
      start = at(event);
      mode = "pressed";
      shifting = event.shiftKey || event.button === 1;
      holds = !shifting && task.grab(start.x, start.y);
    } else if (fingers.size === 2) {
      if (mode === "moving") task.drop(false);
      mode = "two";
    }
  };
  const move = (event: PointerEvent): void => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const now = at(event);
    if (mode === "two" && fingers.size === 2) {
      const old = span();
      fingers.set(event.pointerId, now);
      const fresh = span();
      task.near(old.wide / fresh.wide);
      task.shift((old.x - fresh.x) / high(), (fresh.y - old.y) / high());
      return;
    }
    fingers.set(event.pointerId, now);
    if (mode === "pressed") {
      if (Math.hypot(now.x - start.x, now.y - start.y) < still) return;
      mode = holds ? "moving" : "turning";
    }
    if (mode === "moving") task.drag(now.x, now.y);
    else if (mode === "turning") {
      const [across, up] = [(now.x - before.x) / high(), (now.y - before.y) / high()];
      if (shifting) task.shift(-across, up);
      else task.turn(-across, up);
    }
  };
  const up = (event: PointerEvent): void => {
    if (!fingers.delete(event.pointerId)) return;
    const now = at(event);
    if (mode === "moving") task.drop(true);
    else if (mode === "pressed") task.press(now.x, now.y);
    mode = "idle";
  };
  const cancel = (event: PointerEvent): void => {
    if (!fingers.delete(event.pointerId)) return;
    if (mode === "moving") task.drop(false);
    mode = "idle";
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 16 : 1;
    task.near(Math.exp(Math.max(-0.5, Math.min(0.5, event.deltaY * lines * 0.0016))));
  };
  const breakOff = (): void => {
    if (mode !== "moving") task.leave();
    else {
      task.drop(false);
      mode = "idle";
    }
  };
  const keys = new Map<string, (shift: boolean) => void>([
    ["ArrowLeft", (shift) => (shift ? task.shift(-keyStep, 0) : task.turn(-keyStep, 0))],
    ["ArrowRight", (shift) => (shift ? task.shift(keyStep, 0) : task.turn(keyStep, 0))],
    ["ArrowUp", (shift) => (shift ? task.shift(0, keyStep) : task.turn(0, keyStep))],
    ["ArrowDown", (shift) => (shift ? task.shift(0, -keyStep) : task.turn(0, -keyStep))],
    ["+", () => task.near(0.9)],
    ["=", () => task.near(0.9)],
    ["-", () => task.near(1 / 0.9)],
    ["Home", () => task.home()],
    ["Escape", breakOff],
  ]);
  const key = (event: KeyboardEvent): void => {
    const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys.get(event.key);
    if (!act) return;
    event.preventDefault();
    act(event.shiftKey);
  };

  canvas.addEventListener("pointerdown", down);
  canvas.addEventListener("pointermove", move);
  canvas.addEventListener("pointerup", up);
  canvas.addEventListener("pointercancel", cancel);
  canvas.addEventListener("wheel", wheel, { passive: false });
  canvas.addEventListener("keydown", key);
  return () => {
    canvas.removeEventListener("pointerdown", down);
    canvas.removeEventListener("pointermove", move);
    canvas.removeEventListener("pointerup", up);
    canvas.removeEventListener("pointercancel", cancel);
    canvas.removeEventListener("wheel", wheel);
    canvas.removeEventListener("keydown", key);
  };
}

import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { when } from "../pages/when.ts";
import { excerpt, spanOf } from "./lines.ts";

describe("lines of a text", () => {
  test("every line is found where it stands", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.string().map((s) => s.replaceAll("\n", "")),
          { minLength: 1 },
        ),
        (lines) => {
          const text = lines.join("\n");
          lines.forEach((line, i) => {
            const { from, to } = spanOf(text, i + 1);
            expect(text.slice(from, to)).toBe(line);
          });
        },
      ),
    );
    expect(spanOf("a\nb", 9)).toEqual({ from: 2, to: 3 });
  });

  test("a short line is quoted whole, a long one around its fault", () => {
    expect(excerpt("   kh: 4 gal", 8)).toBe("kh: 4 gal");
    const long = `  - { ${"x".repeat(100)} widht: 3 ${"y".repeat(100)} }`;
    expect(excerpt(long, long.indexOf("widht") + 1)).toMatch(/^… x+ widht: 3 y+ …$/);
    expect(excerpt(long, 1)).toMatch(/^- \{ x+ …$/);
    expect(excerpt(long, long.length)).toMatch(/^… y+ \}$/);
  });
});

describe("when a tank was changed", () => {
  const now = new Date(2026, 10, 25, 12, 0);
  const said = (...at: [number, number, number, number, number]) => when(new Date(...at).toISOString(), now, "en-GB");
  test("is told as one would say it", () => {
    expect(said(2026, 10, 25, 9, 5)).toBe("today at 09:05");
    expect(said(2026, 10, 24, 23, 59)).toBe("yesterday at 23:59");
    expect(said(2026, 10, 2, 8, 0)).toBe("2 November");
    expect(said(2025, 0, 2, 8, 0)).toBe("2 January 2025");
    expect(when("not a date", now)).toBe("at some time");
  });
});

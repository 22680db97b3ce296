import { type RefCallback, useCallback, useRef, useState } from "react";

/** Width of an element in CSS pixels, so that drawings are made at the size they are seen. */
export function useWidth(first: number): [RefCallback<HTMLElement>, number] {
  const [width, setWidth] = useState(first);
  const observer = useRef<ResizeObserver | null>(null);
  const ref = useCallback((element: HTMLElement | null) => {
    observer.current?.disconnect();
    observer.current = null;
    if (!element) return;
    observer.current = new ResizeObserver(([entry]) => {
      const w = Math.round(entry!.contentRect.width);
      if (w > 0) setWidth(w);
    });
    observer.current.observe(element);
    const w = Math.round(element.getBoundingClientRect().width);
    if (w > 0) setWidth(w);
  }, []);
  return [ref, width];
}

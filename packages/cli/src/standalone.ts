/** A drawing that needs nothing beside it: its rules and colours stand within. */
export function standalone(svg: string, css: string, dark: boolean): string {
  const theme = dark ? ' data-theme="room"' : "";
  const end = svg.indexOf(">");
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.slice(0, end)}${theme}><style>${css} svg{background:var(--paper)}</style>${svg.slice(end + 1)}\n`;
}

import "@fontsource-variable/source-sans-3/wght.css";
import "@fontsource/source-serif-4/400.css";
import "@fontsource/source-serif-4/400-italic.css";
import "@fontsource/source-serif-4/600.css";
import "./styles/base.css";
import "./styles/strip.css";
import "./styles/page.css";
import "./styles/form.css";
import { drawingCss, tokenCss } from "@lentic/core/drawing";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { applyTheme } from "./data/settings.ts";

// one set of tokens for screen, drawing and paper
const sheet = new CSSStyleSheet();
sheet.replaceSync(tokenCss + drawingCss);
document.adoptedStyleSheets = [sheet];

applyTheme();
createRoot(document.getElementById("root")!).render(
  <StrictMode>
    <App />
  </StrictMode>,
);

export { type AppOptions, createApp, type Example } from "./app.ts";
export { type Running, ServeError, type ServeOptions, serve } from "./serve.ts";

/** Set by the build from package.json. */
declare const __VERSION__: string;

/** Import directions, made from scripts/layers.json, the one table of what may import what. */
const { rooms, packages } = require("./scripts/layers.json");

const roomRules = Object.entries(rooms).flatMap(([room, allowed]) => [
  {
    name: `room-${room}`,
    comment: `the room ${room} may import only: ${allowed.join(", ") || "no other room"}`,
    severity: "error",
    from: { path: `^packages/core/src/${room}/`, pathNot: "\\.test\\.tsx?$" },
    to: { path: "^packages/core/src/([^/]+)/", pathNot: `^packages/core/src/(${[room, ...allowed].join("|")})/` },
  },
  {
    name: `door-of-${room}`,
    comment: `the room ${room} is entered by its index.ts alone`,
    severity: "error",
    from: { path: "^packages/", pathNot: `^packages/core/src/${room}/|\\.test\\.tsx?$` },
    to: { path: `^packages/core/src/${room}/`, pathNot: `^packages/core/src/${room}/index\\.ts$` },
  },
]);

const packageRules = Object.entries(packages).map(([name, allowed]) => ({
  name: `package-${name}`,
  comment: `the package ${name} may import only: ${allowed.join(", ") || "no other package"}`,
  severity: "error",
  from: { path: `^packages/${name}/src/`, pathNot: "\\.test\\.tsx?$" },
  to: { path: "^packages/([^/]+)/", pathNot: `^packages/(${[name, ...allowed].join("|")})/` },
}));

module.exports = {
  forbidden: [
    ...roomRules,
    ...packageRules,
    {
      name: "core-is-pure",
      comment: "core runs anywhere: no Node built-ins, no network, no interface libraries",
      severity: "error",
      from: { path: "^packages/core/src/", pathNot: "\\.test\\.tsx?$" },
      to: { dependencyTypes: ["core"] },
    },
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    { name: "no-unresolved", severity: "error", from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "(^|/)(dist|node_modules)/" },
    tsPreCompilationDeps: true,
    combinedDependencies: true,
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["source", "import", "types", "node", "default"],
      extensions: [".ts", ".tsx", ".mjs", ".js", ".json"],
    },
  },
};

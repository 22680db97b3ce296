import type { OdeSystem } from "./ode.ts";

/** A problem of the stiff literature with a solution known to many digits, for tests and timing. */
export interface ReferenceProblem {
  readonly name: string;
  readonly system: OdeSystem;
  readonly start: readonly number[];
  /** Size per state below which errors count absolutely: take atol = rtol * scale. */
  readonly scale: readonly number[];
  /** Solution at times counted from t = 0. */
  readonly solution: readonly { readonly t: number; readonly y: readonly number[] }[];
  /** Keys into `sources`. */
  readonly sources: readonly string[];
  readonly how: string;
}

const robertson: ReferenceProblem = {
  name: "Robertson kinetics",
  system: {
    n: 3,
    flows: 0,
    autonomous: true,
    rates(_t, y, out) {
      const first = 0.04 * y[0]!;
      const second = 1e4 * y[1]! * y[2]!;
      const third = 3e7 * y[1]! * y[1]!;
      out[0] = second - first;
      out[1] = first - second - third;
      out[2] = third;
    },
  },
  start: [1, 0, 0],
  scale: [1e-7, 1e-12, 1e-7],
  // Made with SciPy 1.17.1: y = solve_ivp(f, (t_previous, t), y, method="Radau", jac=J, rtol=1e-12,
  // atol=[1e-18, 1e-24, 1e-18]).y[:, -1] from each time to the next; method="BDF" agrees to 4e-10. The last row is the
  // published reference solution (`mazzia_magherini_2008`, read), which the SciPy run meets to 3e-12.
  solution: [
    { t: 0.4, y: [0.98517211386099, 3.3863953789749e-5, 0.01479402218522] },
    { t: 4, y: [0.90551867858425, 2.2404756875602e-5, 0.09445891665887] },
    { t: 40, y: [0.7158270687194, 9.1855347645578e-6, 0.28416374574583] },
    { t: 400, y: [0.4505186684711, 3.2229014416746e-6, 0.54947810862745] },
    { t: 4e3, y: [0.18320225777671, 8.9423712527759e-7, 0.81679684798616] },
    { t: 4e4, y: [0.038983377085483, 1.6217683159097e-7, 0.96101646073768] },
    { t: 4e5, y: [0.0049382745209801, 1.9849940879545e-8, 0.99506170562908] },
    { t: 4e6, y: [0.0005168096014925, 2.0682944912247e-9, 0.99948318833021] },
    { t: 4e7, y: [5.2030718441203e-5, 2.0813357318924e-10, 0.99994796907343] },
    { t: 4e8, y: [5.2077021035727e-6, 2.0830915594152e-11, 0.99999479227707] },
    { t: 4e9, y: [5.208276611435e-7, 2.0833117166042e-12, 0.99999947917026] },
    { t: 4e10, y: [5.2083451767944e-8, 2.0833381779235e-13, 0.99999994791634] },
    { t: 1e11, y: [0.2083340149701255e-7, 0.8333360770334713e-13, 0.999999979166505] },
  ],
  sources: ["hairer_wanner_1996", "mazzia_magherini_2008"],
  how: "computed; last row read",
};

const hires: ReferenceProblem = {
  name: "HIRES",
  system: {
    n: 8,
    flows: 0,
    autonomous: true,
    rates(_t, y, out) {
      const bound = 280 * y[5]! * y[7]!;
      out[0] = -1.71 * y[0]! + 0.43 * y[1]! + 8.32 * y[2]! + 0.0007;
      out[1] = 1.71 * y[0]! - 8.75 * y[1]!;
      out[2] = -10.03 * y[2]! + 0.43 * y[3]! + 0.035 * y[4]!;
      out[3] = 8.32 * y[1]! + 1.71 * y[2]! - 1.12 * y[3]!;
      out[4] = -1.745 * y[4]! + 0.43 * (y[5]! + y[6]!);
      out[5] = -bound + 0.69 * y[3]! + 1.71 * y[4]! - 0.43 * y[5]! + 0.69 * y[6]!;
      out[6] = bound - 1.81 * y[6]!;
      out[7] = 1.81 * y[6]! - bound;
    },
  },
  start: [1, 0, 0, 0, 0, 0, 0, 0.0057],
  scale: [1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-4],
  // First row published (`mazzia_magherini_2008`, read). Second: SciPy 1.17.1, solve_ivp(method="Radau", rtol=1e-12,
  // atol=1e-16) from the first; the same run meets the first row to 1e-12.
  solution: [
    {
      t: 321.8122,
      y: [
        0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2,
        0.2386356198831331e-2, 0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2,
      ],
    },
    {
      t: 421.8122,
      y: [
        0.00067030550358186, 0.00013099684698635, 4.6862231597733e-5, 0.0010446680205517, 0.00059488383095149,
        0.0013996288339428, 0.0010144927577185, 0.0046855072422815,
      ],
    },
  ],
  sources: ["hairer_wanner_1996", "mazzia_magherini_2008"],
  how: "read; second row computed",
};

const orego: ReferenceProblem = {
  name: "Oregonator (OREGO)",
  system: {
    n: 3,
    flows: 0,
    autonomous: true,
    rates(_t, y, out) {
      out[0] = 77.27 * (y[1]! + y[0]! * (1 - 8.375e-6 * y[0]! - y[1]!));
      out[1] = (y[2]! - (1 + y[0]!) * y[1]!) / 77.27;
      out[2] = 0.161 * (y[0]! - y[2]!);
    },
  },
  start: [1, 2, 3],
  scale: [1e-6, 1e-6, 1e-6],
  // Published values (t = 360: `mazzia_magherini_2008`; the others: `hairer_wanner_1996` test set; read in stored public
  // copies). SciPy 1.17.1, solve_ivp(method="Radau", rtol=1e-12, atol=1e-14), meets them all to 1e-12.
  solution: [
    { t: 30, y: [0.100066146718049e1, 0.1512778937348249e4, 0.1035854312767229e5] },
    { t: 60, y: [0.1000874625199626e1, 0.1144336972384497e4, 0.8372149966624639e2] },
    { t: 90, y: [0.1001890368438751e1, 0.5299926232295553e3, 0.166227957904242e1] },
    { t: 120, y: [0.1004118022612645e1, 0.2438326079910346e3, 0.1008822224048647e1] },
    { t: 150, y: [0.1008995416634061e1, 0.1121664388662539e3, 0.1007783229065319e1] },
    { t: 180, y: [0.1019763472537298e1, 0.5159761322947535e2, 0.1016985778956374e1] },
    { t: 210, y: [0.1043985088527474e1, 0.2373442027531524e2, 0.1037691843544522e1] },
    { t: 240, y: [0.1100849071667922e1, 0.109153380546902e2, 0.108583196981086e1] },
    { t: 270, y: [0.1249102130020572e1, 0.5013945178605446e1, 0.1208326626237875e1] },
    { t: 300, y: [0.1779724751937019e1, 0.2281852385542403e1, 0.1613754023671725e1] },
    { t: 330, y: [0.1000889326903503e1, 0.1125438585746596e4, 0.1641049483777168e5] },
    { t: 360, y: [0.1000814870318523e1, 0.1228178521549917e4, 0.1320554942846706e3] },
  ],
  sources: ["hairer_wanner_1996", "mazzia_magherini_2008"],
  how: "read",
};

const vanDerPol: ReferenceProblem = {
  name: "van der Pol, eps = 1e-6 (mu = 1000)",
  system: {
    n: 2,
    flows: 0,
    autonomous: true,
    rates(_t, y, out) {
      out[0] = y[1]!;
      out[1] = ((1 - y[0]! * y[0]!) * y[1]! - y[0]!) / 1e-6;
    },
  },
  start: [2, 0],
  scale: [1e-2, 1e-2],
  // Published values (`hairer_wanner_1996` test set, read in stored public copies).
  solution: [
    { t: 1, y: [-0.186364625480813e1, 0.753543086543546] },
    { t: 2, y: [0.1706167732170456e1, -0.8928097010248257] },
    { t: 3, y: [-0.1510606936744095e1, 0.1178380000730945e1] },
    { t: 4, y: [0.1194414677695905e1, -0.2799585996540082e1] },
    { t: 5, y: [0.1890428596416747e1, -0.734511868016694] },
    { t: 6, y: [-0.1737716306805883e1, 0.8604008653025923] },
    { t: 7, y: [0.1551614645548223e1, -0.1102382892533321e1] },
    { t: 8, y: [-0.1278631984330405e1, 0.2013890883009155e1] },
    { t: 9, y: [-0.191655294948983e1, 0.7169573003463228] },
    { t: 10, y: [0.1768163792391936e1, -0.8315276407898496] },
    { t: 11, y: [-0.1590150544829062e1, 0.1040279389212485e1] },
  ],
  sources: ["hairer_wanner_1996", "mazzia_magherini_2008"],
  how: "read",
};

/** Restricted three-body problem: a satellite's closed path around earth and moon; not stiff. */
const arenstorf: ReferenceProblem = {
  name: "Arenstorf orbit (not stiff)",
  system: {
    n: 4,
    flows: 0,
    autonomous: true,
    rates(_t, y, out) {
      const moon = 0.012277471;
      const earth = 1 - moon;
      const d1 = ((y[0]! + moon) ** 2 + y[1]! ** 2) ** 1.5;
      const d2 = ((y[0]! - earth) ** 2 + y[1]! ** 2) ** 1.5;
      out[0] = y[2]!;
      out[1] = y[3]!;
      out[2] = y[0]! + 2 * y[3]! - (earth * (y[0]! + moon)) / d1 - (moon * (y[0]! - earth)) / d2;
      out[3] = y[1]! - 2 * y[2]! - (earth * y[1]!) / d1 - (moon * y[1]!) / d2;
    },
  },
  start: [0.994, 0, 0, -2.0015851063790824],
  scale: [1, 1, 1, 1],
  // The path closes: published period and starting values (`hairer_norsett_wanner_1993`, II.0; from memory).
  solution: [{ t: 17.065216560157964, y: [0.994, 0, 0, -2.0015851063790824] }],
  sources: ["hairer_norsett_wanner_1993"],
  how: "memory",
};

export const referenceProblems = { robertson, hires, orego, vanDerPol, arenstorf } as const;

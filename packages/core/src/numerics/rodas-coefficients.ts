/**
 * Six-stage, L-stable, stiffly accurate Rosenbrock methods of order 4 with an embedded method of order 3 and an
 * interpolant of order 3, in the form that needs no product with the Jacobian (`hairer_wanner_1996`, IV.7):
 *
 *   (1/(h gamma) I - J) u_i = f(t + c_i h, y + sum_j a_ij u_j) + sum_j (C_ij / h) u_j + h d_i df/dt
 *   y1 = y + sum_j m_j u_j,  error = u_6
 *   y(t + s h) = (1-s) y + s (y1 + (1-s) (sum_j p_j u_j + s sum_j q_j u_j))
 *
 * Stage 6 is evaluated at stage 5 plus u_5, and y1 = stage 6 plus u_6, so a_6 = (a_5, 1) and m = (a_6, 1).
 * Order conditions and stability are checked in `rodas-coefficients.test.ts`.
 */
export interface RosenbrockCoefficients {
  readonly gamma: number;
  /** Stage times, fractions of the step. */
  readonly c: readonly number[];
  /** Weights of the derivative by time. */
  readonly d: readonly number[];
  readonly a: readonly (readonly number[])[];
  readonly C: readonly (readonly number[])[];
  readonly m: readonly number[];
  readonly p: readonly number[];
  readonly q: readonly number[];
}

const RODAS_WEIGHTS = [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895] as const;

/** RODAS (`hairer_wanner_1996`); values from memory, confirmed against two stored public copies. */
export const RODAS: RosenbrockCoefficients = {
  gamma: 0.25,
  c: [0, 0.386, 0.21, 0.63, 1, 1],
  d: [0.25, -0.1043, 0.1035, -0.0362, 0, 0],
  a: [
    [],
    [1.544],
    [0.9466785280815826, 0.2557011698983284],
    [3.314825187068521, 2.896124015972201, 0.9986419139977817],
    RODAS_WEIGHTS,
    [...RODAS_WEIGHTS, 1],
  ],
  C: [
    [],
    [-5.6688],
    [-2.430093356833875, -0.2063599157091915],
    [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
    [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
    [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
  ],
  m: [...RODAS_WEIGHTS, 1, 1],
  p: [10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662, 0],
  q: [-0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872, 0],
};

const RODASP_WEIGHTS = [-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401] as const;

/**
 * RODASP (`steinebach_1995`): like RODAS, with further conditions that keep the order where a stiff part follows a
 * moving target (Prothero-Robinson problem, linear parabolic equations); values read in two stored public copies.
 */
export const RODASP: RosenbrockCoefficients = {
  gamma: 0.25,
  c: [0, 0.75, 0.21, 0.63, 1, 1],
  d: [0.25, -0.5, -0.023504, -0.0362, 0, 0],
  a: [
    [],
    [3],
    [1.831036793486759, 0.4955183967433795],
    [2.304376582692669, -0.05249275245743001, -1.176798761832782],
    RODASP_WEIGHTS,
    [...RODASP_WEIGHTS, 1],
  ],
  C: [
    [],
    [-12],
    [-8.791795173947035, -2.207865586973518],
    [10.81793056857153, 6.780270611428266, 19.5348594464241],
    [34.19095006749676, 15.49671153725963, 54.7476087596413, 14.16005392148534],
    [34.62605830930532, 15.30084976114473, 56.99955578662667, 18.40807009793095, -5.714285714285717],
  ],
  m: [...RODASP_WEIGHTS, 1, 1],
  p: [25.09876703708589, 11.62013104361867, 28.49148307714626, -5.664021568594133, 0, 0],
  q: [1.638054557396973, -0.7373619806678748, 8.47791821923899, 15.9925314877952, -1.882352941176471, 0],
};

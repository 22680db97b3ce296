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

const RODAS4P2_WEIGHTS = [7.089566927282776, 4.573591406461604, -8.423496976860259, -0.959280113459775] as const;

/**
 * RODAS4P2 (`steinebach_2020`): like RODAS, with further conditions that keep the order where a stiff part follows a
 * moving target (Prothero-Robinson problem, linear parabolic equations) and with an inexact Jacobian; values read in two
 * stored public copies.
 */
export const RODAS4P2: RosenbrockCoefficients = {
  gamma: 0.25,
  c: [0, 0.75, 0.321448134013046, 0.519745732277726, 1, 1],
  d: [0.25, -0.5, -0.189532918363016, 0.085612108792769, 0, 0],
  a: [
    [],
    [3],
    [0.906377755268814, -0.189707390391685],
    [3.758617027739064, 1.161741776019525, -0.849258085312803],
    RODAS4P2_WEIGHTS,
    [...RODAS4P2_WEIGHTS, 1],
  ],
  C: [
    [],
    [-12],
    [-6.354581592719008, 0.338972550544623],
    [-8.575016317114033, -7.606483992117508, 12.22499765012482],
    [-5.888975457523102, -8.157396617841821, 24.805546872612922, 12.790401512796979],
    [-4.408651676063871, -6.692003137674639, 24.625568527593117, 16.627521966636085, -5.714285714285718],
  ],
  m: [...RODAS4P2_WEIGHTS, 1, 1],
  p: [-5.323528268423303, -10.042123754867493, 17.175254928256965, -5.079931171878093, -0.016185991706112, 0],
  q: [6.984505741529879, 6.914061169603662, -0.849178943070653, 18.104410789349338, -3.516963011559032, 0],
};

import type { Source } from "../relation/index.ts";

/** Bibliography of the numerics room. */
export const sources: Readonly<Record<string, Source>> = {
  hairer_wanner_1996: {
    cite: "Hairer E, Wanner G (1996) Solving Ordinary Differential Equations II: Stiff and Differential-Algebraic Problems, 2nd ed., Springer; ch. IV.7 (Rosenbrock methods, RODAS), IV.8 (step control), IV.10 (test problems)",
    how: "memory",
  },
  steinebach_2020: {
    cite: "Steinebach G (2020) Improvement of Rosenbrock-Wanner method RODASP, in Progress in Differential-Algebraic Equations II, Springer, 165-184 (RODAS4P2; coefficients read)",
    how: "read",
  },
  gustafsson_1994: {
    cite: "Gustafsson K (1994) Control-theoretic techniques for stepsize selection in implicit Runge-Kutta methods, ACM Trans. Math. Softw. 20, 496-517",
    how: "memory",
  },
  dormand_prince_1980: {
    cite: "Dormand JR, Prince PJ (1980) A family of embedded Runge-Kutta formulae, J. Comput. Appl. Math. 6, 19-26",
    how: "memory",
  },
  hairer_norsett_wanner_1993: {
    cite: "Hairer E, Norsett SP, Wanner G (1993) Solving Ordinary Differential Equations I, 2nd ed., Springer; ch. II.4 (starting step, PI control), II.6 (dense output)",
    how: "memory",
  },
  mazzia_magherini_2008: {
    cite: "Mazzia F, Magherini C (2008) Test Set for Initial Value Problem Solvers, release 2.4, University of Bari and INdAM (HIRES, ROBER, OREGO, VDPOL reference solutions)",
    how: "read",
  },
  prothero_robinson_1974: {
    cite: "Prothero A, Robinson A (1974) On the stability and accuracy of one-step methods for solving stiff systems of ordinary differential equations, Math. Comp. 28, 145-162",
    how: "memory",
  },
  golub_van_loan_2013: {
    cite: "Golub GH, Van Loan CF (2013) Matrix Computations, 4th ed., Johns Hopkins; ch. 3 (LU), 5 (Householder QR)",
    how: "memory",
  },
  brent_1973: {
    cite: "Brent RP (1973) Algorithms for Minimization without Derivatives, Prentice-Hall; ch. 4 (roots), 5 (minima)",
    how: "memory",
  },
  nelder_mead_1965: {
    cite: "Nelder JA, Mead R (1965) A simplex method for function minimization, Computer Journal 7, 308-313",
    how: "memory",
  },
  gao_han_2012: {
    cite: "Gao F, Han L (2012) Implementing the Nelder-Mead simplex algorithm with adaptive parameters, Comput. Optim. Appl. 51, 259-277",
    how: "memory",
  },
  marquardt_1963: {
    cite: "Marquardt DW (1963) An algorithm for least-squares estimation of nonlinear parameters, J. SIAM 11, 431-441",
    how: "memory",
  },
  broyden_1965: {
    cite: "Broyden CG (1965) A class of methods for solving nonlinear simultaneous equations, Math. Comp. 19, 577-593",
    how: "memory",
  },
  anderson_1965: {
    cite: "Anderson DG (1965) Iterative procedures for nonlinear integral equations, J. ACM 12, 547-560",
    how: "memory",
  },
  joe_kuo_2008: {
    cite: "Joe S, Kuo FY (2008) Constructing Sobol sequences with better two-dimensional projections, SIAM J. Sci. Comput. 30, 2635-2654 (direction numbers, set D6)",
    how: "read",
  },
  blackman_vigna_2021: {
    cite: "Blackman D, Vigna S (2021) Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw. 47(4), 36 (xoshiro128**)",
    how: "memory",
  },
  steele_lea_flood_2014: {
    cite: "Steele GL, Lea D, Flood CH (2014) Fast splittable pseudorandom number generators, OOPSLA 2014, 453-472 (splitmix)",
    how: "memory",
  },
  marsaglia_bray_1964: {
    cite: "Marsaglia G, Bray TA (1964) A convenient method for generating normal variables, SIAM Review 6, 260-264",
    how: "memory",
  },
  wichura_1988: {
    cite: "Wichura MJ (1988) Algorithm AS 241: the percentage points of the normal distribution, Applied Statistics 37, 477-484",
    how: "memory",
  },
  hyndman_fan_1996: {
    cite: "Hyndman RJ, Fan Y (1996) Sample quantiles in statistical packages, The American Statistician 50, 361-365 (type 7)",
    how: "memory",
  },
  nist_strd: {
    cite: "NIST Statistical Reference Datasets: nonlinear regression (Misra1a, Thurber and others) and linear regression (Longley, Filip, Norris), certified values",
    how: "memory",
  },
};

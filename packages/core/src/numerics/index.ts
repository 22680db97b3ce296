export { type CurveFit, type CurveFitOptions, fitCurve } from "./curve-fit.ts";
export {
  createDormandPrince,
  dormandPrince,
  ERROR as dormandPrinceError,
  WEIGHTS as dormandPrinceWeights,
} from "./dormand-prince.ts";
export { locateEvent } from "./event.ts";
export { type LeastSquares, leastSquares, RankError } from "./least-squares.ts";
export {
  luFactor,
  luSolve,
  luSolveColumns,
  SingularMatrixError,
  setIdentity,
  solveLinear,
  symmetricEigen,
} from "./linear.ts";
export { findMinimum, goldenSection, type Minimum, type MinimumOptions } from "./minimum.ts";
export { type NelderMeadOptions, type NelderMeadResult, nelderMead } from "./nelder-mead.ts";
export { normalQuantile } from "./normal.ts";
export {
  type EventFunction,
  explainResult,
  type IntegrationResult,
  type IntegrationStatus,
  type Integrator,
  type IntegratorOptions,
  type OdeSystem,
  type Sampler,
  type Step,
} from "./ode.ts";
export { findPeriodic, type PeriodicOptions, type PeriodicResult, type PeriodMap } from "./periodic.ts";
export { fitPolynomial, type PolynomialFit, polynomialAt } from "./polynomial.ts";
export { createRandom, type RandomStream } from "./random.ts";
export { type ReferenceProblem, referenceProblems } from "./reference-problems.ts";
export { createIntegrator, integrate, type RodasOptions } from "./rodas.ts";
export { findRoot, findRootNewton, RootError, type RootOptions } from "./roots.ts";
export { createSampler } from "./sampler.ts";
export { sink } from "./sink.ts";
export { SOBOL_DIMENSIONS, sobolPoints } from "./sobol.ts";
export { sources } from "./sources.ts";
export { mean, quantile, quantileSorted, standardDeviation } from "./statistics.ts";

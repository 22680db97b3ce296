/**
 * Share (0 to 1) of a process that a stock lets through as it runs out: y / (half + |y|).
 *
 * Multiply the rate of every outflow of a stock by it; the stock then empties smoothly instead of being clipped, which
 * would create matter. At y = half the outflow is halved; at y = 0 it is zero. Just below zero (where rounding and the
 * error allowance can put a state) the value is negative, so the outflow reverses and leads the state back, and the
 * balance still closes. The function and its first derivative are continuous everywhere; the second jumps at y = 0.
 *
 * @param y stock, any unit.
 * @param half stock at which the outflow is halved, same unit, above 0; take at least ten times the state's `atol`.
 */
export function sink(y: number, half: number): number {
  return y / (half + Math.abs(y));
}

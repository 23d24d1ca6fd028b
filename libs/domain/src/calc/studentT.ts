/**
 * Two-sided critical value of Student's t: P(|T| ≤ t) = confidence, for a whole number of degrees of freedom.
 * The distribution function is the finite sum of Abramowitz & Stegun 26.7.3 (odd) and 26.7.4 (even), exact; its inverse
 * is found by halving.
 */
export function criticalT(confidence: number, degrees: number): number {
  if (!Number.isInteger(degrees) || degrees < 1) throw new RangeError(`degrees of freedom: ${String(degrees)}`);
  let [low, high] = [0, 1];
  while (within(high, degrees) < confidence) high *= 2;
  for (let i = 0; i < 200 && high - low > 1e-13 * high; i++) {
    const middle = (low + high) / 2;
    if (within(middle, degrees) < confidence) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** P(|T| ≤ t). */
function within(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const odd = degrees % 2 === 1;
  let term = odd ? cos : 1;
  let sum = odd && degrees === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k <= degrees - 2; k += 2) {
    term *= (cos * cos * (k - 1)) / k;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (angle + sin * sum) : sin * sum;
}

/** A figure for the eye: at most `digits` significant digits, no exponent, no trailing zeros. */
export function figure(n: number, digits = 6): string {
  const whole = Math.ceil(Math.log10(Math.abs(n)));
  const places = Math.min(20, Math.max(0, digits - whole));
  const text = n.toFixed(places);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

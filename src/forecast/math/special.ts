/**
 * Special functions in double precision: normal, gamma, beta and Student t.
 * Checked against a reference statistics library in `special.test.ts`.
 */

const SQRT_PI = Math.sqrt(Math.PI);
const SQRT_TAU = Math.sqrt(2 * Math.PI);

/** erf by a series of positive terms, so that nothing cancels; used where 0 <= x < 2. */
function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 200; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
    if (term < 1e-17 * sum) break;
  }
  return (2 / SQRT_PI) * Math.exp(-x * x) * sum;
}

/** erfc by Lentz's continued fraction; used where x >= 2. */
function erfcFraction(x: number): number {
  const tiny = 1e-300;
  let f = x;
  let c = x;
  let d = 0;
  for (let n = 1; n < 300; n++) {
    const a = n / 2;
    d = x + a * d;
    d = 1 / (d === 0 ? tiny : d);
    c = x + a / c;
    const step = c * d;
    f *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return Math.exp(-x * x) / (SQRT_PI * f);
}

/** Complementary error function. */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  return x < 2 ? 1 - erfSeries(x) : erfcFraction(x);
}

/** P(Z <= x) for a standard normal Z; 0 and 1 at the infinities. */
export function normalCdf(x: number): number {
  if (x === Infinity) return 1;
  if (x === -Infinity) return 0;
  return 0.5 * erfc(-x / Math.SQRT2);
}

/** Density of the standard normal. */
export const normalPdf = (x: number): number => Math.exp((-x * x) / 2) / SQRT_TAU;

const tailStart = (q: number): number => {
  const t = Math.sqrt(-2 * Math.log(q));
  return t - (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3);
};

/** x with P(Z <= x) = p; infinite at 0 and 1. A rational start (4e-4), then three Halley steps. */
export function normalQuantile(p: number): number {
  if (p <= 0) return -Infinity;
  if (p >= 1) return Infinity;
  if (p > 0.5) return -normalQuantile(1 - p);
  let x = -tailStart(p);
  for (let i = 0; i < 3; i++) {
    const e = (normalCdf(x) - p) / normalPdf(x);
    x -= e / (1 + (x * e) / 2);
  }
  return x;
}

const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Natural logarithm of the gamma function, x > 0. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const y = x - 1;
  const t = y + 7.5;
  let sum = LANCZOS[0] ?? 1;
  for (let i = 1; i < LANCZOS.length; i++) sum += (LANCZOS[i] ?? 0) / (y + i);
  return 0.5 * Math.log(2 * Math.PI) + (y + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** One step of Lentz's method, guarded against division by zero. */
const guard = (x: number): number => (Math.abs(x) < 1e-300 ? 1e-300 : x);

function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / guard(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m <= 500; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / guard(1 + even * d);
    c = guard(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / guard(1 + odd * d);
    c = guard(1 + odd / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return h;
}

/** Regularised incomplete beta function: P(B <= x) for B ~ Beta(a, b); a, b > 0. */
export function betaCdf(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(a, b, x)) / a : 1 - (front * betaFraction(b, a, 1 - x)) / b;
}

/** x in [0, 1] with P(Beta(a, b) <= x) = p, by bisection to the last bits. */
export function betaQuantile(p: number, a: number, b: number): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 1100; i++) {
    const mid = (low + high) / 2;
    if (mid === low || mid === high) break;
    if (betaCdf(mid, a, b) < p) low = mid;
    else high = mid;
  }
  return (low + high) / 2;
}

/** P(T <= x) for Student's t with `df` > 0 degrees of freedom. */
export function studentCdf(x: number, df: number): number {
  if (!Number.isFinite(df)) return normalCdf(x);
  const tail = 0.5 * betaCdf(df / (df + x * x), df / 2, 0.5);
  return x >= 0 ? 1 - tail : tail;
}

/** x with P(T <= x) = p for Student's t with `df` degrees of freedom; 0 < p < 1. */
export function studentQuantile(p: number, df: number): number {
  if (!Number.isFinite(df)) return normalQuantile(p);
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, df);
  const y = betaQuantile(2 * (1 - p), df / 2, 0.5);
  return Math.sqrt((df * (1 - y)) / y);
}

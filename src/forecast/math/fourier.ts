/**
 * Discrete Fourier transform of power-of-two length, for products of wide distributions. Errors are
 * near 1e-16 of the largest value, far below the 1e-9 asked of a forecast.
 */

export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

interface Plan {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly reversed: Uint32Array;
}

const plans = new Map<number, Plan>();

function planOf(n: number): Plan {
  const known = plans.get(n);
  if (known) return known;
  const cos = Float64Array.from({ length: n / 2 }, (_, k) => Math.cos((2 * Math.PI * k) / n));
  const sin = Float64Array.from({ length: n / 2 }, (_, k) => -Math.sin((2 * Math.PI * k) / n));
  const reversed = new Uint32Array(n);
  for (let i = 1; i < n; i++) reversed[i] = ((reversed[i >> 1] ?? 0) >> 1) | (i & 1 ? n / 2 : 0);
  const plan = { cos, sin, reversed };
  plans.set(n, plan);
  return plan;
}

/** Smallest power of two that is at least `length`, at least 2. */
export function powerOfTwo(length: number): number {
  let n = 2;
  while (n < length) n *= 2;
  return n;
}

function permute(x: Float64Array, reversed: Uint32Array): void {
  for (let i = 0; i < x.length; i++) {
    const j = reversed[i] ?? 0;
    if (j > i) {
      const kept = x[i] ?? 0;
      x[i] = x[j] ?? 0;
      x[j] = kept;
    }
  }
}

/** Forward transform in place. */
export function transform({ re, im }: Spectrum): void {
  const n = re.length;
  const { cos, sin, reversed } = planOf(n);
  permute(re, reversed);
  permute(im, reversed);
  for (let half = 1; half < n; half *= 2) {
    const stride = n / (2 * half);
    for (let start = 0; start < n; start += 2 * half) {
      for (let k = 0, w = 0; k < half; k++, w += stride) {
        const a = start + k;
        const b = a + half;
        const c = cos[w] ?? 0;
        const s = sin[w] ?? 0;
        const xr = re[b] ?? 0;
        const xi = im[b] ?? 0;
        const tr = xr * c - xi * s;
        const ti = xr * s + xi * c;
        const ur = re[a] ?? 0;
        const ui = im[a] ?? 0;
        re[b] = ur - tr;
        im[b] = ui - ti;
        re[a] = ur + tr;
        im[a] = ui + ti;
      }
    }
  }
}

/** Inverse transform in place, with the factor 1/n. */
export function inverse({ re, im }: Spectrum): void {
  transform({ re: im, im: re });
  const n = re.length;
  for (let i = 0; i < n; i++) {
    re[i] = (re[i] ?? 0) / n;
    im[i] = (im[i] ?? 0) / n;
  }
}

/** Room for a transform of `n` values. */
export const emptySpectrum = (n: number): Spectrum => ({ re: new Float64Array(n), im: new Float64Array(n) });

/** Transform of a real sequence, padded with zeros to `n`. */
export function spectrumOf(values: Float64Array, n: number): Spectrum {
  const spectrum = emptySpectrum(n);
  spectrum.re.set(values);
  transform(spectrum);
  return spectrum;
}

/**
 * target += weight * (transform of `a`) * (transform of `b`), both real and padded to the target's
 * length. One transform serves both: `a` as the real, `b` as the imaginary part.
 */
export function addProduct(target: Spectrum, a: Float64Array, b: Float64Array, weight: number): void {
  const n = target.re.length;
  const both = emptySpectrum(n);
  both.re.set(a);
  both.im.set(b);
  transform(both);
  const w = weight / 4;
  for (let k = 0; k < n; k++) {
    const j = (n - k) & (n - 1);
    const xr = both.re[k] ?? 0;
    const xi = both.im[k] ?? 0;
    const yr = both.re[j] ?? 0;
    const yi = -(both.im[j] ?? 0);
    // a = (x + conj y) / 2, b = (x - conj y) / 2i, so ab = (x² - (conj y)²) / 4i.
    const sr = xr * xr - xi * xi - (yr * yr - yi * yi);
    const si = 2 * (xr * xi - yr * yi);
    target.re[k] = (target.re[k] ?? 0) + w * si;
    target.im[k] = (target.im[k] ?? 0) - w * sr;
  }
}

/** target *= other, value by value. */
export function multiply(target: Spectrum, other: Spectrum): void {
  for (let k = 0; k < target.re.length; k++) {
    const ar = target.re[k] ?? 0;
    const ai = target.im[k] ?? 0;
    const br = other.re[k] ?? 0;
    const bi = other.im[k] ?? 0;
    target.re[k] = ar * br - ai * bi;
    target.im[k] = ar * bi + ai * br;
  }
}

/** target += weight * other. */
export function addSpectrum(target: Spectrum, other: Spectrum, weight: number): void {
  for (let k = 0; k < target.re.length; k++) {
    target.re[k] = (target.re[k] ?? 0) + weight * (other.re[k] ?? 0);
    target.im[k] = (target.im[k] ?? 0) + weight * (other.im[k] ?? 0);
  }
}

/** target += weight * a * b, value by value. */
export function addMultiplied(target: Spectrum, a: Spectrum, b: Spectrum, weight: number): void {
  for (let k = 0; k < target.re.length; k++) {
    const ar = (a.re[k] ?? 0) * weight;
    const ai = (a.im[k] ?? 0) * weight;
    const br = b.re[k] ?? 0;
    const bi = b.im[k] ?? 0;
    target.re[k] = (target.re[k] ?? 0) + ar * br - ai * bi;
    target.im[k] = (target.im[k] ?? 0) + ar * bi + ai * br;
  }
}

/** A short real sequence with the spectrum that it is to be multiplied by. */
export interface WindowPair {
  readonly window: Float64Array;
  readonly spectrum: Spectrum;
}

/** target += weight * sum of (transform of window) * spectrum; two windows share one transform. */
export function addWindows(target: Spectrum, pairs: readonly WindowPair[], weight: number): void {
  for (let i = 0; i < pairs.length; i += 2) {
    const first = pairs[i];
    const second = pairs[i + 1];
    if (first !== undefined) addTwo(target, first, second, weight);
  }
}

function addTwo(target: Spectrum, first: WindowPair, second: WindowPair | undefined, weight: number): void {
  const n = target.re.length;
  const both = emptySpectrum(n);
  both.re.set(first.window);
  if (second !== undefined) both.im.set(second.window);
  transform(both);
  if (second === undefined) {
    addMultiplied(target, both, first.spectrum, weight);
    return;
  }
  const w = weight / 2;
  const { spectrum: a } = first;
  const { spectrum: b } = second;
  for (let k = 0; k < n; k++) {
    const j = (n - k) & (n - 1);
    const xr = both.re[k] ?? 0;
    const xi = both.im[k] ?? 0;
    const yr = both.re[j] ?? 0;
    const yi = -(both.im[j] ?? 0);
    // Transform of the real part (x + y) / 2, of the imaginary part (x - y) / 2i.
    const pr = w * (xr + yr);
    const pi = w * (xi + yi);
    const qr = w * (xi - yi);
    const qi = -w * (xr - yr);
    const ar = a.re[k] ?? 0;
    const ai = a.im[k] ?? 0;
    const br = b.re[k] ?? 0;
    const bi = b.im[k] ?? 0;
    target.re[k] = (target.re[k] ?? 0) + pr * ar - pi * ai + qr * br - qi * bi;
    target.im[k] = (target.im[k] ?? 0) + pr * ai + pi * ar + qr * bi + qi * br;
  }
}

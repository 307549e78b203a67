/**
 * Discrete Fourier transform of power-of-two length, for products of wide distributions. Errors are
 * near 1e-16 of the largest value, far below the 1e-9 asked of a forecast. Spectra stand in bit-reversed
 * order: products need no other, and the sorting would cost as much as the transform.
 */

export interface Spectrum {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

interface Plan {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  /** Place of the frequency -k, by the place of the frequency k. */
  readonly mirror: Uint32Array;
}

const plans = new Map<number, Plan>();

function planOf(n: number): Plan {
  const known = plans.get(n);
  if (known) return known;
  const cos = Float64Array.from({ length: n }, (_, k) => Math.cos((2 * Math.PI * k) / n));
  const sin = Float64Array.from({ length: n }, (_, k) => -Math.sin((2 * Math.PI * k) / n));
  const reversed = new Uint32Array(n);
  for (let i = 1; i < n; i++) reversed[i] = ((reversed[i >> 1] ?? 0) >> 1) | (i & 1 ? n / 2 : 0);
  const mirror = reversed.map((k) => reversed[(n - k) & (n - 1)] ?? 0);
  const plan = { cos, sin, mirror };
  plans.set(n, plan);
  return plan;
}

/** Smallest power of two that is at least `length`, at least 2. */
export function powerOfTwo(length: number): number {
  let n = 2;
  while (n < length) n *= 2;
  return n;
}

/** Two stages of halving at once, over all blocks of `length` values. */
function quarter(re: Float64Array, im: Float64Array, length: number, { cos, sin }: Plan): void {
  const n = re.length;
  const q = length / 4;
  const stride = n / length;
  for (let start = 0; start < n; start += length) {
    for (let k = 0, w = 0; k < q; k++, w += stride) {
      const a = start + k;
      const b = a + q;
      const c = b + q;
      const d = c + q;
      const ar = re[a] ?? 0;
      const ai = im[a] ?? 0;
      const br = re[b] ?? 0;
      const bi = im[b] ?? 0;
      const cr = re[c] ?? 0;
      const ci = im[c] ?? 0;
      const dr = re[d] ?? 0;
      const di = im[d] ?? 0;
      const evenR = ar + cr;
      const evenI = ai + ci;
      const oddR = ar - cr;
      const oddI = ai - ci;
      const sumR = br + dr;
      const sumI = bi + di;
      const diffR = br - dr;
      const diffI = bi - di;
      re[a] = evenR + sumR;
      im[a] = evenI + sumI;
      const c2 = cos[2 * w] ?? 0;
      const s2 = sin[2 * w] ?? 0;
      re[b] = (evenR - sumR) * c2 - (evenI - sumI) * s2;
      im[b] = (evenR - sumR) * s2 + (evenI - sumI) * c2;
      const c1 = cos[w] ?? 0;
      const s1 = sin[w] ?? 0;
      re[c] = (oddR + diffI) * c1 - (oddI - diffR) * s1;
      im[c] = (oddR + diffI) * s1 + (oddI - diffR) * c1;
      const c3 = cos[3 * w] ?? 0;
      const s3 = sin[3 * w] ?? 0;
      re[d] = (oddR - diffI) * c3 - (oddI + diffR) * s3;
      im[d] = (oddR - diffI) * s3 + (oddI + diffR) * c3;
    }
  }
}

/** Forward transform in place, into bit-reversed order. */
export function transform({ re, im }: Spectrum): void {
  const n = re.length;
  const plan = planOf(n);
  let length = n;
  for (; length >= 4; length /= 4) quarter(re, im, length, plan);
  if (length !== 2) return;
  for (let a = 0; a < n; a += 2) {
    const ur = re[a] ?? 0;
    const ui = im[a] ?? 0;
    const vr = re[a + 1] ?? 0;
    const vi = im[a + 1] ?? 0;
    re[a] = ur + vr;
    im[a] = ui + vi;
    re[a + 1] = ur - vr;
    im[a + 1] = ui - vi;
  }
}

/** Inverse transform in place, from bit-reversed order, with the factor 1/n. */
export function inverse(spectrum: Spectrum): void {
  // With real and imaginary parts exchanged the forward rotations turn backwards.
  const re = spectrum.im;
  const im = spectrum.re;
  const n = re.length;
  const { cos, sin } = planOf(n);
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
  const { mirror } = planOf(n);
  for (let k = 0; k < n; k++) {
    const j = mirror[k] ?? 0;
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
  const { mirror } = planOf(n);
  for (let k = 0; k < n; k++) {
    const j = mirror[k] ?? 0;
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

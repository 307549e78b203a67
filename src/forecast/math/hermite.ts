/** One node of a finite mixture: the value of the day factor in standard deviations, and its weight. */
export interface Node {
  readonly z: number;
  readonly weight: number;
}

/** Normalised Hermite function of order n at x and its derivative factor, for the weight exp(-x*x). */
function hermite(n: number, x: number): { value: number; slope: number } {
  let p1 = Math.PI ** -0.25;
  let p2 = 0;
  for (let j = 0; j < n; j++) {
    const p3 = p2;
    p2 = p1;
    p1 = x * Math.sqrt(2 / (j + 1)) * p2 - Math.sqrt(j / (j + 1)) * p3;
  }
  return { value: p1, slope: Math.sqrt(2 * n) * p2 };
}

/** Root nearest to the start, by Newton's method. */
function newton(n: number, start: number): { x: number; slope: number } {
  let x = start;
  let slope = 1;
  for (let i = 0; i < 100; i++) {
    const at = hermite(n, x);
    slope = at.slope;
    const step = at.value / at.slope;
    x -= step;
    if (Math.abs(step) < 1e-15) break;
  }
  return { x, slope };
}

/** Brackets of the positive roots found on a fine grid: plain, and good for the few nodes used here. */
function positiveRoots(n: number): { x: number; slope: number }[] {
  const roots: { x: number; slope: number }[] = [];
  const step = 0.01;
  let before = hermite(n, step / 2).value;
  for (let x = step * 1.5; roots.length < Math.floor(n / 2) && x < 20; x += step) {
    const here = hermite(n, x).value;
    if (Math.sign(here) !== Math.sign(before)) roots.push(newton(n, x - step / 2));
    before = here;
  }
  return roots;
}

/**
 * Gauss-Hermite nodes of a standard normal factor, `count` of them (odd counts hold 0), smallest
 * first; weights sum to 1. The mixture over these nodes is the model itself, not an approximation.
 */
export function normalNodes(count: number): readonly Node[] {
  const half = positiveRoots(count).map(({ x, slope }) => ({ z: x * Math.SQRT2, weight: 2 / (slope * slope) }));
  const middle = count % 2 === 1 ? [{ z: 0, weight: 2 / newton(count, 0).slope ** 2 }] : [];
  const all = [...half.map((n) => ({ z: -n.z, weight: n.weight })).reverse(), ...middle, ...half];
  const sum = all.reduce((s, n) => s + n.weight, 0);
  return all.map((n) => ({ z: n.z, weight: n.weight / sum }));
}

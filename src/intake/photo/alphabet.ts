import { type Glyph, shapeDistance } from './glyphs.ts';

/** A shape met on the sheet, and what text recognition called it, how often. */
interface Shape {
  readonly mean: Float32Array;
  count: number;
  readonly votes: Map<string, number>;
}

/** How a glyph reads in the sheet's own alphabet: best first. */
export interface GlyphReading {
  readonly text: string;
  /** 0..1: agreement of the votes, lowered where another shape with another name is about as near. */
  readonly confidence: number;
}

export interface Alphabet {
  read(glyph: Glyph): readonly GlyphReading[];
}

/** Shapes nearer than this are the same print. */
const SAME = 0.035;

/**
 * Learns the sheet's own print. Text recognition reads the same figure right in most places and wrong
 * in some; the same figure of one print always has the same shape. So shapes are gathered into groups
 * and each group is called what most of its members were read as.
 */
export function learnAlphabet(
  samples: readonly { readonly glyph: Glyph; readonly text: string; readonly weight: number }[],
): Alphabet {
  const shapes: Shape[] = [];
  for (const { glyph, text, weight } of samples) {
    if (glyph.kind !== 'shape') continue;
    const near = nearest(shapes, glyph);
    const shape = near !== null && near.distance < SAME ? near.shape : addShape(shapes, glyph);
    absorb(shape, glyph);
    shape.votes.set(text, (shape.votes.get(text) ?? 0) + weight);
  }
  return { read: (glyph) => readGlyph(shapes, glyph) };
}

function nearest(shapes: readonly Shape[], glyph: Glyph): { shape: Shape; distance: number } | null {
  let best: { shape: Shape; distance: number } | null = null;
  for (const shape of shapes) {
    const distance = shapeDistance(shape.mean, glyph.shape);
    if (best === null || distance < best.distance) best = { shape, distance };
  }
  return best;
}

function addShape(shapes: Shape[], glyph: Glyph): Shape {
  const shape = { mean: Float32Array.from(glyph.shape), count: 0, votes: new Map<string, number>() };
  shapes.push(shape);
  return shape;
}

/** The mean follows its members, less and less. */
function absorb(shape: Shape, glyph: Glyph): void {
  shape.count += 1;
  const share = 1 / shape.count;
  for (let i = 0; i < shape.mean.length; i += 1) {
    shape.mean[i] = (shape.mean[i] ?? 0) * (1 - share) + (glyph.shape[i] ?? 0) * share;
  }
}

function readGlyph(shapes: readonly Shape[], glyph: Glyph): GlyphReading[] {
  if (glyph.kind === 'dot') return [{ text: '.', confidence: 0.97 }];
  if (glyph.kind === 'stroke') return [{ text: '-', confidence: 0.97 }];
  if (glyph.kind === 'bang') return [{ text: '!', confidence: 0.97 }];
  const scores = new Map<string, number>();
  let total = 0;
  for (const shape of shapes) {
    const distance = shapeDistance(shape.mean, glyph.shape);
    if (distance > 4 * SAME) continue;
    // Near shapes speak loudest; a shape seen often speaks with more certainty, up to a point.
    const closeness = Math.exp(-distance / (0.35 * SAME));
    const all = [...shape.votes.values()].reduce((a, b) => a + b, 0);
    const voice = closeness * Math.min(1, 0.4 + 0.15 * all);
    for (const [text, votes] of shape.votes)
      scores.set(text, (scores.get(text) ?? 0) + (voice * votes) / Math.max(all, 1e-6));
    total += voice;
  }
  if (total === 0) return [];
  const near = Math.min(1, total * 1.5);
  return [...scores]
    .map(([text, score]) => ({ text, confidence: (score / total) * near }))
    .sort((a, b) => b.confidence - a.confidence)
    .slice(0, 4);
}

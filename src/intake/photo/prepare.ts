import type { Grey } from './grey.ts';
import { evenLight } from './light.ts';
import { findPaper } from './paper.ts';
import { withoutRules } from './ruled.ts';
import { skewOf } from './skew.ts';
import { flattened, rotated } from './warp.ts';

/** A photograph made ready for reading: sheet cut out and laid flat, light evened, straight, no ruled lines. */
export function prepared(photo: Grey): Grey {
  const corners = findPaper(photo);
  const lit = evenLight(corners === null ? photo : flattened(photo, corners));
  const skew = skewOf(lit);
  return withoutRules(Math.abs(skew) < 0.0005 ? lit : rotated(lit, -skew));
}

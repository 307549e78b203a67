import { componentsOf } from './components.ts';
import { type Grey, halved } from './grey.ts';
import { evenLight } from './light.ts';
import { findPaper } from './paper.ts';
import { withoutRules } from './ruled.ts';
import { figureHeight } from './segment.ts';
import { skewOf } from './skew.ts';
import { quarterTurnsToUpright } from './upright.ts';
import { flatView, quarterTurned, scaledView, shown, turnedView, type View, wholeOf } from './warp.ts';

/** Height of a figure, in pixels, at which print is recognised best. */
const READING_HEIGHT = 34;
const MAX_READING_PIXELS = 40_000_000;
/** A figure this high is made smaller first, whole pixels at a time, so that its edges do not flicker. */
const TOO_HIGH = 60;
const MOST_ENLARGED = 3.5;

/**
 * A photograph made ready for reading: the sheet cut out, laid flat, turned upright and straight, brought
 * to a good size, its light evened, its ruled lines taken out. What has to be known for that is measured on a
 * rough view; the view that is read is sampled from the photograph once, since every resampling blurs.
 */
export function prepared(photo: Grey): Grey {
  const corners = findPaper(photo);
  const flat = (corners === null ? null : flatView(corners)) ?? wholeOf(photo);
  const rough = evenLight(shown(photo, flat));
  const quarters = quarterTurnsToUpright(rough);
  const upright = quarters === 0 ? rough : shown(rough, quarterTurned(wholeOf(rough), quarters));
  const size = figureHeight(componentsOf(withoutRules(upright)));
  if (size > TOO_HIGH) return prepared(halved(photo));
  const view = turnedView(quarterTurned(flat, quarters), -skewOf(upright));
  const scale = Math.min(MOST_ENLARGED, mostFor(view), READING_HEIGHT / size);
  return withoutRules(evenLight(shown(photo, scaledView(view, scale)), scale));
}

const mostFor = ({ width, height }: View): number => Math.sqrt(MAX_READING_PIXELS / (width * height));

import { componentsOf } from './components.ts';
import { type Grey, halved } from './grey.ts';
import { evenLight } from './light.ts';
import { findPaper } from './paper.ts';
import { withoutRules } from './ruled.ts';
import { figureHeight } from './segment.ts';
import { skewOf } from './skew.ts';
import { turnToUpright } from './upright.ts';
import { flatView, quarterTurned, scaledView, shown, turnedView, type View, wholeOf } from './warp.ts';

/** Height of a figure, in pixels, at which print is recognised best. */
const READING_HEIGHT = 34;
const MAX_READING_PIXELS = 40_000_000;
/** A figure this high is made smaller first, whole pixels at a time, so that its edges do not flicker. */
const TOO_HIGH = 60;
/** A figure less high than this is measured enlarged. */
const SMALL = 20;
const MOST_ENLARGED = 3.5;

/** A picture to be read. */
export interface Prepared {
  readonly picture: Grey;
  /** False where it may as well stand upside down. */
  readonly sure: boolean;
}

/** The picture turned upside down. */
export const upsideDown = (picture: Grey): Grey => ({ ...picture, data: picture.data.toReversed() });

/**
 * A photograph made ready for reading: the sheet cut out, laid flat, turned upright and straight, brought
 * to a good size, its light evened, its ruled lines taken out. What has to be known for that is measured on a
 * rough view; the view that is read is sampled from the photograph once, since every resampling blurs.
 */
export function prepared(photo: Grey): Prepared {
  const corners = findPaper(photo);
  const flat = (corners === null ? null : flatView(corners)) ?? wholeOf(photo);
  const rough = roughView(photo, flat);
  const { quarters, sure } = turnToUpright(rough);
  const upright = quarters === 0 ? rough : shown(rough, quarterTurned(wholeOf(rough), quarters));
  const enlarged = rough.width / flat.width;
  const size = figureHeight(componentsOf(withoutRules(upright))) / enlarged;
  if (size > TOO_HIGH) return prepared(halved(photo));
  const view = turnedView(quarterTurned(flat, quarters), -skewOf(upright));
  const scale = Math.min(MOST_ENLARGED, mostFor(view), READING_HEIGHT / size);
  return { picture: withoutRules(evenLight(shown(photo, scaledView(view, scale)), scale)), sure };
}

const mostFor = ({ width, height }: View): number => Math.sqrt(MAX_READING_PIXELS / (width * height));

/** Small print is enlarged for measuring too: the points of its decimals are a pixel or two. */
function roughView(photo: Grey, flat: View): Grey {
  const rough = evenLight(shown(photo, flat));
  if (figureHeight(componentsOf(rough)) >= SMALL) return rough;
  const scale = Math.min(2, mostFor(flat));
  return scale <= 1 ? rough : evenLight(shown(photo, scaledView(flat, scale)), scale);
}

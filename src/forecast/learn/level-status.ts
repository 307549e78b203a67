import type { Element } from '../../notation/index.ts';
import type { LevelFamily, LevelName } from './priors.ts';

/** Family of a spin or sequence; null for jumps. */
export function levelFamily(element: Element): LevelFamily | null {
  switch (element.kind) {
    case 'jump':
      return null;
    case 'steps':
      return 'steps';
    case 'choreo':
      return 'choreo';
    case 'spin':
      if (element.position === 'Co') return 'combination spin';
      if (element.changeFoot) return 'change-foot spin';
      return element.flying ? 'flying spin' : 'spin';
  }
}

/** Level as counted; `none` where no level was confirmed or the element has no value. */
export const levelName = (element: Element): LevelName =>
  element.kind === 'jump' || element.level === null || element.noValue ? 'none' : `${element.level}`;

import { layoutWords } from './layout.ts';
import { seasonWords } from './season.ts';
import { stepWords } from './steps.ts';

/**
 * Every word on screen that is not data, in one place and ready for translation: a further language is
 * a second file of the same shape. Element codes are never translated.
 */
export const words = {
  layout: layoutWords,
  season: seasonWords,
  steps: stepWords,
  rooms: {
    skaters: 'Skaters',
    events: 'Events',
    practice: 'Practice',
    rules: 'Rules',
    rooms: 'Rooms',
    atTheFoot: 'Rooms, at the foot',
  },
  toThePage: 'To the page',
  find: 'Find',
  addASheet: 'Add a sheet',
  undo: 'Undo',
  notKnown: 'not known',
  why: 'Why?',
  close: 'Close',
  source: 'Source',
  marks: { m: 'from memory', p: 'provisional', y: 'your own entry' },
  marksRow: { start: 'Marks:', end: 'none: published and read.' },
  coachOnly: 'coach only',
} as const;

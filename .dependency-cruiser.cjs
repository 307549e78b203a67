/** The house rule of docs/architecture: a room imports only from rooms above it, through their doors. */
const ROOMS = [
  'notation',
  'rulebook',
  'scoring',
  'levels',
  'reading',
  'forecast',
  'programs',
  'season',
  'intake',
  'report',
  'store',
  'server',
  'cli',
];
const PURE = ROOMS.slice(0, ROOMS.indexOf('season') + 1);

const upward = ROOMS.map((room, i) => ({
  name: `${room}-imports-only-upward`,
  severity: 'error',
  comment: `${room} may import only from: ${ROOMS.slice(0, i).join(', ') || 'nothing'}`,
  from: { path: `^src/${room}/` },
  to: { path: `^src/(${ROOMS.slice(i + 1).join('|') || 'none'})/` },
}));
const doors = ROOMS.map((room) => ({
  name: `through-the-door-of-${room}`,
  severity: 'error',
  comment: `other rooms import src/${room}/index.ts, nothing inside`,
  from: { path: '^src/', pathNot: `^src/${room}/` },
  to: { path: `^src/${room}/`, pathNot: `^src/${room}/(index|node)\\.ts$` },
}));

module.exports = {
  forbidden: [
    ...upward,
    ...doors,
    {
      name: 'pure-rooms-touch-no-machine',
      severity: 'error',
      comment: 'pure rooms run in Node, in a worker and in the browser: no core module, no file, no network',
      from: { path: `^src/(${PURE.join('|')})/`, pathNot: '(\\.test\\.ts$|/testing/)' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'no-circles',
      severity: 'error',
      comment: 'types alone may point back: they are gone when the program runs',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    doNotFollow: { path: 'node_modules' },
  },
};

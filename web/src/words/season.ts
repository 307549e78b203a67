const times = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** Words of Skaters, Practice, Plan B and Events. */
export const seasonWords = {
  whySafer:
    'The element that stood most often on the last five sheets without any call on rotation, edge or value; three times at least. Counts, never rates, and of nobody else.',
  whySlipped:
    'The element that was most often other than planned in the last ten run-throughs, twice at least; without such, the one most often called on the last five sheets.',
  whyFresh: 'Elements on the newest sheet that stood on none before.',
  printed: (tes: string, pcs: string) =>
    `As printed on the sheet: elements ${tes}, components ${pcs}, and what was deducted or added.`,
  printedOnly: 'As printed on the sheet; its parts are not known.',
  recomputed: 'Its reading recomputes every figure, and says where it does not agree.',
  openReading: 'Open the reading',
  asList: 'The same as a list',
  usually: (low: string, high: string, n: number) =>
    `Usually between ${low} and ${high}, based on ${times(n, 'sheet', 'sheets')}; a day outside is normal.`,
  whyUsually:
    'The range in which one more result falls on eight days of ten, from the mean and the spread of these sheets (Student’s distribution, so that few sheets widen it). Nothing else enters.',
  trend: (direction: 'up' | 'down', by: string, n: number) =>
    `${direction === 'up' ? 'Up' : 'Down'} by about ${by} an event over ${n} events, more than the noise.`,
  noTrend: (n: number) => `No trend larger than the noise over ${n} events.`,
  whyTrend: (low: string, high: string) =>
    `A straight line through the totals in their order; on 19 of 20 such occasions its slope lies between ${low} and ${high} points an event. It is told where zero is outside.`,

  logged: (n: number, orMore: boolean) =>
    `${orMore ? `${n} or more run-throughs` : times(n, 'run-through', 'run-throughs')} logged in the last seven days.`,
  whyLogged: 'Counted from the log, by its dates:',
  noneLogged: 'None in the last seven days.',
  emptyPractice: 'Nothing is logged yet. “Log” needs one press when all was as planned.',
  whyCount:
    'Counted over the run-throughs in which it was planned and tried; what was left out is no try. Switched on under Layout, they stand beside the sheets, each as a quarter of a competition (common practice, no source).',
  allAsPlanned: 'all as planned',
  takeBack: 'Undo this run-through',
  takenBack: 'Taken back. Nothing is kept of it.',

  whyGain: (rulebook: string) =>
    `What the program brings with this change, less what it brings going on as planned: base values as a panel would call them in skating order, with the second half. Values and rules: ${rulebook}.`,
  whyTarget: 'The target that you entered with this goal. A score is not in our hands.',
  whyChance: (p: string) =>
    `Exact value of the model: ${p}, from the chances that stand behind the turns or features, each by itself; told as days of twenty because they bear no more.`,
} as const;

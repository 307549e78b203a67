import type { BestLayout, BestResult } from './best.ts';
import type { Objective } from './objective.ts';

/** The JSON answer of `best`, with the first `top` layouts. */
export const bestJson = (result: BestResult, top: number): object => ({
  id: result.id,
  rulebook: result.rulebook,
  proven: result.proven,
  bound: result.bound,
  layouts: result.layouts.slice(0, top),
  searched: result.searched,
  ...(result.layouts.length === 0 ? { conflict: result.conflict } : {}),
  ...(result.excluded.length > 0 ? { excluded: result.excluded } : {}),
  ...(result.warnings.length > 0 ? { warnings: result.warnings } : {}),
});

const aim = (objective: Objective): string => {
  if (objective.kind === 'expected') return 'the expected total';
  if (objective.kind === 'chance') return `the chance of ${(objective.target / 100).toFixed(2)} or more`;
  return `the total that is reached in all but ${+(objective.level * 100).toFixed(2)} of 100 programs`;
};

/** Chances as days out of twenty: nobody is told a finer figure than an estimate can bear. */
const worth = (value: number, objective: Objective): string =>
  objective.kind === 'chance' ? `about ${Math.round(value * 20)} of 20 days` : value.toFixed(2);

const listed = (layout: BestLayout): string =>
  layout.codes.map((code, i) => (layout.bonus.includes(i + 1) ? `${code} x` : code)).join(', ');

/** Two expected totals closer than this share of the spread are not told apart by one program. */
const NOISE = 0.1;

function versus(best: BestLayout, other: BestLayout, objective: Objective): string {
  const lost = best.codes.filter((code) => !other.codes.includes(code));
  const won = other.codes.filter((code) => !best.codes.includes(code));
  const swap = won.length > 0 ? `${won.join(', ')} in place of ${lost.join(', ')}` : `without ${lost.join(', ')}`;
  const close = Math.abs(best.expected - other.expected) < NOISE * best.sd;
  const gap =
    objective.kind === 'chance'
      ? worth(other.value, objective)
      : `${(best.value - other.value).toFixed(2)} less${close ? ', no real difference' : ''}`;
  return `${swap}: ${gap}`;
}

/** Share of the spread below the mean that nine programs in ten exceed. */
const LOW_DAY = 1.28;

const lowDay = (layout: BestLayout): number => layout.expected - LOW_DAY * layout.sd;

/** The safest of the layouts found, with what it gives up; nothing where the best is the safest. */
function saferThan(best: BestLayout, others: readonly BestLayout[]): readonly string[] {
  const [safest] = [...others].sort((a, b) => lowDay(b) - lowDay(a));
  if (safest === undefined || lowDay(safest) <= lowDay(best) + 0.005) {
    return ['Of the layouts looked at it is also the safe one.'];
  }
  const gain = (lowDay(safest) - lowDay(best)).toFixed(2);
  const price = Math.max(0, best.expected - safest.expected).toFixed(2);
  return [`Safer: ${listed(safest)}: ${gain} more on a low day, ${price} less on average.`];
}

/** `best` for people. */
export function bestText(result: BestResult, top: number): string {
  const notes = [
    ...result.excluded.map(({ code, why }) => `Left out: ${code}: ${why}.`),
    ...result.warnings.map((warning) => `Note: ${warning}`),
  ];
  const [best, ...others] = result.layouts;
  if (best === undefined) {
    const head = result.proven ? 'No legal layout can be made of these elements.' : 'No layout was found.';
    return [head, ...result.conflict.map((demand) => `- ${demand}`), ...notes].join('\n');
  }
  const close = others.slice(0, Math.max(top - 1, 1));
  return [
    `Best of the elements and reliabilities you entered, by this model, for ${aim(result.objective)}:`,
    listed(best),
    `Worth: ${worth(best.value, result.objective)}; expected ${best.expected.toFixed(2)}, scores like this usually lie within ${(1.3 * best.sd).toFixed(1)} of it.`,
    result.proven
      ? 'No legal layout of these entries is better by this model.'
      : 'The search was stopped or cannot be closed: another layout may be better.',
    ...saferThan(best, others),
    ...(close.length > 0 ? ['Next best:', ...close.map((one) => `- ${versus(best, one, result.objective)}`)] : []),
    ...notes,
    'A jump that is added means more attempts a week: decide with coach, parents and, in pain or growth, medical staff.',
  ].join('\n');
}

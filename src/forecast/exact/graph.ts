import { fail, formatElement, ok, type Result } from '../../notation/index.ts';
import { UNKNOWN_CONTENT, type Hundredths } from '../../rulebook/index.ts';
import { callNext, futures, startProgram, stateKey, type Future, type ProgramState } from '../../scoring/index.ts';
import { ownPoints } from './own-points.ts';
import { calledPoints, type CalledPoints } from './points.ts';
import { slim } from './slim.ts';
import type { ProgramElement, ProgramModel } from './program.ts';

/** What follows one outcome in one state: which points it brings, what is deducted, the next state. */
export interface Arc {
  /** Index into the level's `values`. */
  readonly value: number;
  /** Deduction of the fall in this arc, 0 or negative. */
  readonly deduct: Hundredths;
  readonly next: number;
}

/** One element of the program as a step between states. */
export interface Level {
  readonly element: ProgramElement;
  readonly values: readonly CalledPoints[];
  /** Every outcome as called if nothing else were in the program: what the form of the day ranks. */
  readonly own: readonly CalledPoints[];
  /** `arcs[state][outcome]`. */
  readonly arcs: readonly (readonly Arc[])[];
  /** Number of states after this element. */
  readonly statesAfter: number;
}

/** The program as a small automaton: one start state, one level an element, one end state. */
export interface Graph {
  readonly levels: readonly Level[];
}

interface Live {
  readonly state: ProgramState;
  /** Falls so far, held where the scale of falls ends. */
  readonly falls: number;
}

/** Deduction of the k-th fall and the number of falls from which all cost the same. */
interface FallScale {
  readonly amounts: readonly Hundredths[];
  readonly settled: number;
}

function fallScale(amounts: readonly Hundredths[]): FallScale {
  const last = amounts.at(-1) ?? 0;
  let settled = amounts.length;
  while (settled > 0 && amounts[settled - 1] === last) settled--;
  return { amounts: amounts.length === 0 ? [0] : amounts, settled };
}

const amountOf = (scale: FallScale, before: number): Hundredths => scale.amounts[before] ?? scale.amounts.at(-1) ?? 0;

const noFallScale = (model: ProgramModel): Result<never> =>
  fail({
    code: 'forecast.fall-scale',
    at: 'elements',
    found: 'an outcome with a fall',
    expected: `what a fall costs in ${model.rules.category} under ${model.rules.deductions.id}`,
    advice: 'Ask for the element score (--on tes), or enter the deduction in an overlay of your own.',
  });

/** Falls as the rulebook deducts them; all zero where deductions are not asked. */
function scaleFor(model: ProgramModel, deduct: boolean): Result<FallScale> {
  const falls = deduct && model.elements.some((e) => e.outcomes.some((o) => o.fall && o.p > 0));
  if (!falls) return ok(fallScale([]));
  const { category, segment, deductions } = model.rules;
  const scale = deductions.deductions(category, segment).falls;
  return scale === null ? noFallScale(model) : ok(fallScale(scale));
}

/** Values of a level, each kept once. */
class ValueTable {
  readonly values: CalledPoints[] = [];
  private readonly known = new Map<string, number>();

  index(key: string, make: () => Result<CalledPoints>): Result<number> {
    const found = this.known.get(key);
    if (found !== undefined) return ok(found);
    const made = make();
    if (!made.ok) return made;
    this.known.set(key, this.values.length);
    this.values.push(made.value);
    return ok(this.values.length - 1);
  }
}

/** Calls every outcome of one element in every live state. */
function step(
  element: ProgramElement,
  live: readonly Live[],
  future: Future,
  model: ProgramModel,
  scale: FallScale,
): Result<{ readonly level: Level; readonly after: readonly Live[] }> {
  const table = new ValueTable();
  const after: Live[] = [];
  const index = new Map<string, number>();
  const arcs: Arc[][] = [];
  for (const { state: before, falls } of live) {
    const row: Arc[] = [];
    for (const [o, outcome] of element.outcomes.entries()) {
      const called = callNext(before, outcome.element, { bonus: element.bonus });
      const key = `${o} ${formatElement(called.element)} ${called.half} ${called.lowestGrade}`;
      const value = table.index(key, () => calledPoints(called, outcome, model.rules.values));
      if (!value.ok) return fail({ ...value.error, at: `elements[${element.no - 1}]` });
      const fallsAfter = outcome.fall ? Math.min(falls + 1, scale.settled) : falls;
      const state = slim(called.state, future);
      const stateName = `${stateKey(state, future)} ${fallsAfter}`;
      const next = index.get(stateName) ?? after.push({ state, falls: fallsAfter }) - 1;
      index.set(stateName, next);
      row.push({ value: value.value, deduct: outcome.fall ? amountOf(scale, falls) : 0, next });
    }
    arcs.push(row);
  }
  const own = ownPoints(element, model.rules);
  return ok({ level: { element, values: table.values, own, arcs, statesAfter: after.length }, after });
}

/**
 * Merges states from which everything goes on alike, from the last element backwards: equal points,
 * equal deductions, equal next states for every outcome. The result is the smallest automaton.
 */
function merged(levels: readonly Level[]): readonly Level[] {
  const result: Level[] = [];
  let classOf: readonly number[] = Array.from({ length: levels.at(-1)?.statesAfter ?? 1 }, () => 0);
  let classes = 1;
  for (let i = levels.length - 1; i >= 0; i--) {
    const level = levels[i];
    if (level === undefined) break;
    const index = new Map<string, number>();
    const arcs: (readonly Arc[])[] = [];
    const after = classOf;
    classOf = level.arcs.map((row) => {
      const mapped = row.map((arc) => ({ ...arc, next: after[arc.next] ?? 0 }));
      const key = mapped.map((arc) => `${arc.value},${arc.deduct},${arc.next}`).join(' ');
      const known = index.get(key);
      if (known !== undefined) return known;
      index.set(key, arcs.length);
      arcs.push(mapped);
      return arcs.length - 1;
    });
    result.unshift({ ...level, arcs, statesAfter: classes });
    classes = arcs.length;
  }
  return result;
}

/**
 * The program under the panel's program-wide rules, in skating order. With `deduct` each fall carries
 * its own amount of the rulebook's scale. Trouble: a value, a grade or a fall scale that is not known.
 */
export function programGraph(model: ProgramModel, deduct: boolean): Result<Graph> {
  const { rules, elements } = model;
  const content = rules.content.content(rules.category, rules.segment) ?? UNKNOWN_CONTENT;
  const scale = scaleFor(model, deduct);
  if (!scale.ok) return scale;
  const possible = elements.map((e) => e.outcomes.map((o) => o.element));
  const ahead = futures(possible);
  let live: readonly Live[] = [{ state: startProgram(content, rules.values.values, rules.segment), falls: 0 }];
  const levels: Level[] = [];
  for (const [i, element] of elements.entries()) {
    const future = ahead[i];
    if (future === undefined) break;
    const done = step(element, live, future, model, scale.value);
    if (!done.ok) return done;
    levels.push(done.value.level);
    live = done.value.after;
  }
  return ok({ levels: merged(levels) });
}

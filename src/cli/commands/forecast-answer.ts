import {
  buildModel,
  distributionOf,
  FORECAST_CAUTION,
  forecast,
  forecastEvent,
  forecastLines,
  normalPmf,
  readRunThrough,
  storedPriors,
  timeOf,
  type BuiltModel,
  type Evidence,
  type Forecast,
  type LoggedRunThrough,
  type Pmf,
} from '../../forecast/index.ts';
import { describeProblem, fail, ok, type Problem, type Result } from '../../notation/index.ts';
import { readLayout, type Layout, type Protocol } from '../../scoring/index.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { readEarlier, videoOf, type EarlierProtocols } from '../earlier-protocols.ts';
import { UsageError, type Io } from '../io.ts';
import { ruleChooser, type RuleChooser } from '../rules.ts';
import { wrapped } from '../style.ts';
import { readValues, type InputValue } from '../values.ts';
import type { ForecastFlags } from './forecast.ts';

/** Everything a forecast of this run may look at. */
interface Setting {
  readonly io: Io;
  readonly flags: ForecastFlags;
  readonly rules: RuleChooser;
  readonly earlier: EarlierProtocols | null;
  /** Logged run-throughs; empty: none given. */
  readonly practice: readonly LoggedRunThrough[];
  /** Rivals, where a field is given. */
  readonly field: readonly Pmf[] | null;
}

const fieldOf = ({ field }: Setting) => (field === null ? {} : { field });

/** Runs `forecast` over its files. */
export async function answerForecasts(io: Io, files: readonly string[], flags: ForecastFlags): Promise<void> {
  const rules = ruleChooser(flags.rulebook);
  const earlier = flags.history === undefined ? null : await readEarlier(flags.history, io);
  const practice = flags.practice === undefined ? [] : await readPractice(flags.practice, io);
  const base: Setting = { io, flags, rules, earlier, practice, field: null };
  const setting: Setting = flags.field === undefined ? base : { ...base, field: await readField(flags.field, base) };
  for (const warning of earlier?.warnings ?? []) io.err(`${warning}\n`);
  if (flags.on === 'event') await answerEvents(setting, files);
  else for (const file of files) await answerFile(setting, file);
  if (flags.json !== true) await io.out(`${wrapped(FORECAST_CAUTION, io.width)}\n`);
}

const answerFile = ({ io, ...setting }: Setting, file: string): Promise<void> =>
  answerEach(io, file, { json: setting.flags.json === true }, (value) => answerOne({ io, ...setting }, value));

function answerOne(setting: Setting, value: unknown): Result<Answer> {
  const layout = readLayout(value);
  if (!layout.ok) return layout;
  const { on, target, pmf } = setting.flags;
  if (on === 'event') return fail(eventAlone());
  const rules = setting.rules.choose(layout.value);
  if (!rules.ok) return rules;
  const evidence = evidenceFor(layout.value, setting);
  if (!evidence.ok) return evidence;
  const found = forecast(layout.value, rules.value, evidence.value, {
    on,
    targets: target,
    pmf: pmf === true,
    sensitivity: setting.flags.sensitivity === true,
    ...fieldOf(setting),
  });
  if (!found.ok) return found;
  return ok(answerOf(found.value, [layout.value], setting));
}

const eventAlone = (): Problem => ({
  code: 'forecast.event',
  at: 'value',
  found: 'one layout',
  expected: 'a short program and a free skate, one after the other',
  advice: 'Give both layouts: forecast SHORT FREE --on event.',
});

/** Her own earlier protocols, by skater and place in time. */
function evidenceFor(layout: Layout, { earlier, rules, flags, practice }: Setting): Result<Evidence> {
  const own = ownHistory(layout, earlier?.protocols ?? []);
  if (!own.ok) return own;
  return ok({
    history: own.value,
    priors: storedPriors(),
    likeness: likenessOf(earlier, flags.video),
    practice: practice.filter((run) => layout.date === null || run.at < layout.date),
    rulesOf: (protocol) => {
      const chosen = rules.choose(protocol);
      return chosen.ok ? chosen.value : null;
    },
  });
}

/** Reads a file of run-throughs whole: one that cannot be read stops the run, for evidence is not to be dropped unseen. */
async function readPractice(file: string, io: Io): Promise<readonly LoggedRunThrough[]> {
  const runs: LoggedRunThrough[] = [];
  for await (const value of readValues(file, io)) {
    const run = value.read.ok ? readRunThrough(value.read.value) : value.read;
    if (!run.ok) throw new UsageError(`${file}, line ${value.line}: ${describeProblem(run.error)}`);
    runs.push(run.value);
  }
  return runs;
}

/** Events known to differ in video review count half. */
const UNLIKE = 0.5;

function likenessOf(earlier: EarlierProtocols | null, video: 'yes' | 'no' | undefined): (protocol: Protocol) => number {
  const answers = new Map(earlier?.protocols.map((protocol, i) => [protocol, videoOf(earlier.given[i])]));
  return (protocol) => {
    const then = answers.get(protocol) ?? null;
    return video === undefined || then === null || then === video ? 1 : UNLIKE;
  };
}

function ownHistory(layout: Layout, protocols: readonly Protocol[]): Result<readonly Protocol[]> {
  const skaters = new Set(protocols.map((p) => p.skater));
  if (layout.skater === null && skaters.size > 1) {
    return fail({
      code: 'forecast.skater',
      at: 'skater',
      found: 'nothing',
      expected: `whose layout this is: the history holds ${skaters.size} skaters`,
      advice: 'Name the skater in the layout as in the history.',
    });
  }
  const own = layout.skater === null ? protocols : protocols.filter((p) => p.skater === layout.skater);
  const { date } = layout;
  const before = own.filter((p) => date === null || p.date === null || p.date < date);
  return ok([...before].sort((a, b) => (timeOf(a) ?? 0) - (timeOf(b) ?? 0)));
}

function answerOf(found: Forecast, layouts: readonly Layout[], { io, flags }: Setting): Answer {
  const codes = layouts.flatMap((layout) => layout.elements.map((e) => e.code));
  return {
    json: found,
    text: () => {
      const lines = forecastLines(found, codes, flags.target);
      const name = found.id === null ? '' : `${found.id}\n`;
      return `${name}${lines.map((line) => wrapped(line, io.width, '  ')).join('\n')}`;
    },
    act: false,
  };
}

// ---- the field -----------------------------------------------------------------------------------

/** Rivals of an event: layouts, forecast as her own, or lines with the mean and spread of the score asked. */
async function readField(file: string, setting: Setting): Promise<readonly Pmf[]> {
  const rivals: Pmf[] = [];
  for await (const value of readValues(file, setting.io)) {
    const rival = value.read.ok ? rivalOf(value.read.value, setting) : value.read;
    if (!rival.ok) throw new UsageError(`${file}, line ${value.line}: ${describeProblem(rival.error)}`);
    rivals.push(rival.value);
  }
  return rivals;
}

function rivalOf(value: unknown, setting: Setting): Result<Pmf> {
  const given = typeof value === 'object' && value !== null ? value : {};
  const mean: unknown = 'mean' in given ? given.mean : undefined;
  const sd: unknown = 'sd' in given ? given.sd : undefined;
  if (typeof mean === 'number' && typeof sd === 'number' && sd >= 0) return ok(normalPmf(mean, sd));
  const { on } = setting.flags;
  if (on === 'event' || !('elements' in given)) return fail(noRival());
  const layout = readLayout(value);
  if (!layout.ok) return layout;
  const rules = setting.rules.choose(layout.value);
  if (!rules.ok) return rules;
  // The run-throughs are hers; of a rival nothing was logged.
  const evidence = evidenceFor(layout.value, { ...setting, practice: [] });
  if (!evidence.ok) return evidence;
  const model = buildModel(layout.value, rules.value, evidence.value, on);
  return model.ok ? distributionOf(model.value.model, on) : model;
}

const noRival = (): Problem => ({
  code: 'forecast.rival',
  at: 'value',
  found: 'neither a layout nor a mean with its spread',
  expected: '{"mean": 52.4, "sd": 4.1}, or a layout (not for --on event)',
  advice: 'Give every rival in one of the two forms; no names are needed.',
});

// ---- two segments --------------------------------------------------------------------------------

interface ReadLayout {
  readonly value: InputValue;
  readonly file: string;
  readonly layout: Result<Layout>;
}

async function readAll(files: readonly string[], io: Io): Promise<readonly ReadLayout[]> {
  const all: ReadLayout[] = [];
  for (const file of files) {
    for await (const value of readValues(file, io)) {
      all.push({ value, file, layout: value.read.ok ? readLayout(value.read.value) : value.read });
    }
  }
  return all;
}

/** Pairs layouts of one skater: the next one of the other segment. */
function pairsOf(all: readonly ReadLayout[]): readonly (readonly ReadLayout[])[] {
  const open: ReadLayout[] = [];
  const pairs: (readonly ReadLayout[])[] = [];
  for (const one of all) {
    const partner = open.findIndex((other) => fitTogether(other.layout, one.layout));
    const [other] = partner < 0 ? [] : open.splice(partner, 1);
    if (other === undefined) open.push(one);
    else pairs.push([other, one]);
  }
  return [...pairs, ...open.map((one) => [one])];
}

const fitTogether = (a: Result<Layout>, b: Result<Layout>): boolean =>
  a.ok && b.ok && a.value.skater === b.value.skater && a.value.segment !== b.value.segment;

async function answerEvents(setting: Setting, files: readonly string[]): Promise<void> {
  const { io, flags } = setting;
  const all = await readAll(files, io);
  const answers = pairsOf(all).map((pair) => ({ pair, answer: answerPair(setting, pair) }));
  if (!answers.some(({ answer }) => answer.ok)) {
    const [first] = answers.flatMap(({ answer }) => (answer.ok ? [] : [answer.error]));
    throw new UsageError(first === undefined ? 'nothing to read.' : describeProblem(first));
  }
  for (const { pair, answer } of answers) {
    if (answer.ok)
      await io.out(flags.json === true ? `${JSON.stringify(answer.value.json)}\n` : `${answer.value.text()}\n`);
    else await tellTrouble(setting, pair[0], answer.error);
  }
}

async function tellTrouble({ io, flags }: Setting, one: ReadLayout | undefined, problem: Problem): Promise<void> {
  io.exit(1);
  const id = one?.layout.ok === true ? one.layout.value.id : null;
  if (flags.json === true) await io.out(`${JSON.stringify({ id, line: one?.value.line, error: problem })}\n`);
  else io.err(`${one?.file ?? ''}, line ${one?.value.line ?? 0}: ${describeProblem(problem)}\n`);
}

function built(layout: Layout, setting: Setting): Result<BuiltModel> {
  const rules = setting.rules.choose(layout);
  if (!rules.ok) return rules;
  const evidence = evidenceFor(layout, setting);
  return evidence.ok ? buildModel(layout, rules.value, evidence.value, 'total') : evidence;
}

function answerPair(setting: Setting, pair: readonly ReadLayout[]): Result<Answer> {
  const [a, b] = pair;
  if (a === undefined) return fail(eventAlone());
  if (!a.layout.ok) return a.layout;
  if (b === undefined) return fail(eventAlone());
  if (!b.layout.ok) return b.layout;
  const first = built(a.layout.value, setting);
  if (!first.ok) return first;
  const second = built(b.layout.value, setting);
  if (!second.ok) return second;
  const ids = [a.layout.value.id, b.layout.value.id].filter((id) => id !== null);
  const id = ids.length === 0 ? null : [...new Set(ids)].join(' + ');
  const { target, pmf } = setting.flags;
  const found = forecastEvent([first.value, second.value], id, {
    targets: target,
    pmf: pmf === true,
    ...fieldOf(setting),
  });
  return found.ok ? ok(answerOf(found.value, [a.layout.value, b.layout.value], setting)) : found;
}

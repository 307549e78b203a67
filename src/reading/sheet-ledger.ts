import type { ChosenRules, Hundredths } from '../rulebook/index.ts';
import {
  componentPoints,
  fallPoints,
  panelMean,
  type Layout,
  type PanelRule,
  type Protocol,
  type ProtocolComponent,
} from '../scoring/index.ts';
import { isFieldOfPlay, type Cause } from './causes.ts';
import type { LedgerEntry } from './types.ts';

/** Component points of both sides; null where the sheet has no component that can be computed. */
export interface ComponentAccount {
  readonly awarded: Hundredths | null;
  readonly reference: Hundredths | null;
  /** Places in the protocol that took part. */
  readonly places: readonly number[];
}

/**
 * Components as awarded; under a layout at its means where it gives them. A component without marks
 * stands as printed; one that lacks marks, score or factor is left out on both sides.
 */
export function componentAccount(
  protocol: Protocol,
  rules: ChosenRules,
  panel: PanelRule,
  layout: Layout | null,
): ComponentAccount {
  const both = protocol.components.flatMap((component, place) => {
    const factor = factorOf(component, rules);
    const awarded = componentPoints(panelMean(component.marks, panel) ?? component.score, factor);
    if (awarded === null) return [];
    const planned = plannedMean(component, layout, rules);
    return [{ place, awarded, reference: planned === null ? awarded : (componentPoints(planned, factor) ?? awarded) }];
  });
  if (both.length === 0) return { awarded: null, reference: null, places: [] };
  return {
    awarded: both.reduce((sum, one) => sum + one.awarded, 0),
    reference: both.reduce((sum, one) => sum + one.reference, 0),
    places: both.map((one) => one.place),
  };
}

/** The factor of the sheet, else the rulebook's; null where neither knows it. */
export const factorOf = (component: ProtocolComponent, rules: ChosenRules): Hundredths | null =>
  component.factor ?? rules.values.components(rules.category, rules.segment).factor;

function plannedMean(component: ProtocolComponent, layout: Layout | null, rules: ChosenRules): Hundredths | null {
  const name = canonicalName(component.name, rules);
  const planned = layout?.components?.find((one) => canonicalName(one.name, rules) === name);
  return planned?.mean == null ? null : Math.round(planned.mean * 100);
}

function canonicalName(name: string, rules: ChosenRules): string {
  const low = name.trim().toLowerCase();
  const known = rules.values
    .components(rules.category, rules.segment)
    .list.find((one) => one.name.toLowerCase() === low || one.aliases.includes(low));
  return (known?.name ?? name).toLowerCase();
}

/** The entry for components, if the two sides differ. */
export function componentEntries(account: ComponentAccount): LedgerEntry[] {
  if (account.awarded === null || account.reference === null || account.awarded === account.reference) return [];
  const at = account.places.map((place) => `components[${place}]`);
  return [sheetEntry('components', account.awarded - account.reference, at)];
}

/**
 * Deductions and bonus points against a reference that has none. The deduction for falls is a line of
 * its own: as itemised, else the scale's amount for the falls on the sheet, but no more than was taken.
 */
export function sheetEntries(protocol: Protocol, rules: ChosenRules, falls: number): LedgerEntry[] {
  const split = splitDeductions(protocol, rules, falls);
  return [
    ...(split.fall === 0 ? [] : [sheetEntry('fall', split.fall, split.fallPlaces)]),
    ...(split.rest === 0 ? [] : [sheetEntry('deduction', split.rest, split.restPlaces)]),
    ...(protocol.bonus === null || protocol.bonus === 0 ? [] : [sheetEntry('bonus', protocol.bonus, ['bonus'])]),
  ];
}

const sheetEntry = (cause: Cause, points: Hundredths, evidence: readonly string[]): LedgerEntry => ({
  no: null,
  element: null,
  cause,
  points,
  winBack: 0 - points,
  evidence,
  fieldOfPlay: isFieldOfPlay(cause),
});

interface SplitDeductions {
  readonly fall: Hundredths;
  readonly fallPlaces: readonly string[];
  readonly rest: Hundredths;
  readonly restPlaces: readonly string[];
}

function splitDeductions(protocol: Protocol, rules: ChosenRules, falls: number): SplitDeductions {
  const { deductions } = protocol;
  if (deductions === null) return { fall: 0, fallPlaces: [], rest: 0, restPlaces: [] };
  if (deductions.items === null) {
    const scale = fallPoints(rules.deductions.deductions(rules.category, rules.segment), falls) ?? 0;
    const fall = Math.max(scale, deductions.total);
    return { fall, fallPlaces: ['deductions'], rest: deductions.total - fall, restPlaces: ['deductions'] };
  }
  const placed = deductions.items.map((item, i) => ({ ...item, at: `deductions[${i}]` }));
  const ofFalls = placed.filter((item) => isFall(item.reason));
  const others = placed.filter((item) => !isFall(item.reason));
  const sum = (items: readonly { readonly points: Hundredths }[]) =>
    items.reduce((total, one) => total + one.points, 0);
  return {
    fall: sum(ofFalls),
    fallPlaces: ofFalls.map((item) => item.at),
    rest: sum(others),
    restPlaces: others.map((item) => item.at),
  };
}

const isFall = (reason: string): boolean => /\bfalls?\b/i.test(reason);

import type { z } from 'zod';

/** What a schema says about a wrong value, in words that fit behind "expected". */
export interface Expected {
  /** The issue that tells most: of several shapes that a value may have, the one it came nearest to. */
  readonly issue: z.core.$ZodIssue;
  readonly expected: string;
}

/** Turns an issue of the schema into the end of a sentence: `a number`, `one of "V"|"no-value"`. */
export function expectedBy(outer: z.core.$ZodIssue): Expected {
  const issue = outer.code === 'invalid_union' ? nearest(outer) : outer;
  return { issue, expected: words(issue) };
}

/** Of a union the issue that lies deepest: the branch that fits the value's form. Its path is made whole. */
function nearest(outer: z.core.$ZodIssueInvalidUnion): z.core.$ZodIssue {
  const inner = outer.errors.flat().map((issue) => ({ ...issue, path: [...outer.path, ...issue.path] }));
  const all = inner.filter((issue) => issue.code !== 'invalid_type' || issue.path.length > outer.path.length);
  return all.reduce<z.core.$ZodIssue>(
    (best, next) => (next.path.length > best.path.length ? next : best),
    all[0] ?? outer,
  );
}

function words(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') return TYPES[issue.expected] ?? `a value of type ${issue.expected}`;
  if (issue.code === 'invalid_union') return 'a value of one of the forms in docs/rulebooks.md';
  return issue.message.replace(/^[A-Z][a-z]+ [a-z]+: (?:expected )?/, '');
}

const TYPES: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: '`true` or `false`',
  array: 'a list',
  tuple: 'a list',
  object: 'a mapping of keys',
  record: 'a mapping of keys',
};

import type { Mend, MendStep } from './types.ts';

function stepText(step: MendStep): string {
  switch (step.kind) {
    case 'take-out':
      return `take out the ${step.code} (element ${step.no})`;
    case 'change':
      return `${step.to} in place of ${step.code} (element ${step.no})`;
    case 'exchange':
      return `exchange the ${step.code} (element ${step.no}) with the ${step.otherCode} (element ${step.other})`;
    case 'add':
      return `add ${step.code}`;
  }
}

/** A way to mend as a sentence without its effect: “3F+2T in place of 3F (element 10)”. */
export function mendText({ steps }: Pick<Mend, 'steps'>): string {
  const text = steps.map(stepText).join(', then ');
  return text.charAt(0).toUpperCase() + text.slice(1);
}

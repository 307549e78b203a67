import { formatElement, sameElement, type Element, type Level } from '../notation/index.ts';
import type { PanelRule, Protocol } from '../scoring/index.ts';
import { toNumber } from './fraction.ts';
import { meanGrade } from './grades.ts';
import { contentChange } from './content-change.ts';
import type { Line } from './lines.ts';
import { mainJump, spokenElement, spokenJump } from './spoken.ts';
import type { ProgramNote } from './types.ts';

/** The program as skated beside its reference, in skating order; codes that cannot be read are left out. */
export function programOf(protocol: Protocol, lines: readonly Line[], panel: PanelRule): ProgramNote[] {
  return lines.flatMap((line): ProgramNote[] => {
    if (line.kind === 'unreadable') return [];
    if (line.kind === 'missing') return [missingNote(line)];
    const { skated, reference } = line;
    const mean = meanGrade(skated.marks, panel);
    return [
      {
        index: skated.index,
        planned: reference.planned,
        no: skated.no,
        code: skated.code,
        called: `${formatElement(skated.element)}${skated.fall ? ' F' : ''}`,
        kind: skated.element.kind,
        name: spokenElement(skated.element),
        mainName: mainName(skated.element),
        change: contentChange(reference.element, skated.element),
        plannedName: sameElement(skated.element, reference.element) ? null : spokenElement(reference.element),
        grade: mean === null ? null : toNumber(mean),
        referenceGrade: toNumber(reference.grade),
        level: levelOf(skated.element),
        referenceLevel: levelOf(reference.element),
        start: protocol.elements[skated.index]?.start ?? null,
      },
    ];
  });
}

const missingNote = ({ planned }: Extract<Line, { kind: 'missing' }>): ProgramNote => ({
  index: null,
  planned: planned.planned,
  no: planned.planned + 1,
  code: planned.code,
  called: planned.code,
  kind: planned.element.kind,
  name: spokenElement(planned.element),
  mainName: mainName(planned.element),
  change: null,
  plannedName: null,
  grade: null,
  referenceGrade: toNumber(planned.grade),
  level: null,
  referenceLevel: levelOf(planned.element),
  start: null,
});

function mainName(element: Element): string {
  const jump = element.kind === 'jump' ? mainJump(element) : null;
  return jump === null ? spokenElement(element) : spokenJump(jump);
}

const levelOf = (element: Element): Level | null => (element.kind === 'jump' ? null : element.level);

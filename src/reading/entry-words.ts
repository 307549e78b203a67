import { grade, grades } from './numbers.ts';
import { noteOf } from './skater-words.ts';
import type { LedgerEntry, ProgramNote, Reading } from './types.ts';

/** What stands beside the points of an entry, in a few words. */
export function entryDetail(entry: LedgerEntry, reading: Reading): string {
  const note = noteOf(entry.evidence, reading.program);
  switch (entry.cause) {
    case 'content':
      return contentDetail(note);
    case 'rotation':
    case 'edge':
      return gradesDetail(entry);
    case 'fall':
      return entry.element === null ? 'deduction' : gradesDetail(entry);
    case 'level':
      return `level ${note?.level ?? ''}, reference ${note?.referenceLevel ?? ''}`;
    case 'V':
      return 'at least: a feature may have gone with it';
    case 'execution':
      return note?.grade == null ? '' : `panel grade ${grade(note.grade)}, reference ${grade(note.referenceGrade)}`;
    case 'no-value':
      return 'no value: *, or no level';
    case 'repeat':
      return 'called as a repeat';
    case 'second-half':
      return 'credited half other than planned';
    case 'deduction':
      return entry.evidence.includes('deductions') ? 'the sheet does not say for what' : 'other than falls';
    case 'bonus':
      return 'points that the event adds';
    case 'components':
      return 'against the planned means';
  }
}

function contentDetail(note: ProgramNote | null): string {
  if (note === null) return '';
  if (note.index === null) return 'planned, not on the sheet';
  return note.plannedName === null ? 'not planned' : `planned: ${note.plannedName}`;
}

/** What was booked to the call, and the range that the season's list asks for. */
function gradesDetail({ grades: obliged }: LedgerEntry): string {
  if (obliged?.min == null || obliged.max == null) return 'obliged grades not known';
  const range = obliged.min === obliged.max ? grades(obliged.min) : `${grades(obliged.min)} to ${grades(obliged.max)}`;
  return `${grades(obliged.booked)} of ${range} obliged grades booked`;
}

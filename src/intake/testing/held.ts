import { parseCode } from '../../notation/index.ts';
import type { Library } from '../../rulebook/index.ts';
import { elementValue, goeOfMarks, panelMean } from '../../scoring/index.ts';
import type { SheetReading } from '../recognise/reading.ts';

/** What no equation of a sheet holds: a wrong one here can only be seen by eye. */
const UNPINNED =
  /^(?:rank|startNumber|competition|skater)|^elements\[\d+\]\.(?:no|info): |^deductions: 0 read as undefined/;

/** A mark may be silently wrong only if the marks as read still give what is printed. */
function isHeld(message: string, reading: SheetReading, library: Library): boolean {
  const place = /^(elements|components)\[(\d+)\]\.marks/.exec(message);
  const index = Number(place?.[2]);
  if (place?.[1] === 'components') {
    const row = reading.protocol.components?.[index];
    const marks = (row?.marks ?? []).map((mark) => (mark === null ? null : Math.round(mark * 100)));
    return panelMean(marks, { trimFrom: 5, drop: 1 }) === Math.round((row?.score ?? NaN) * 100);
  }
  const row = reading.protocol.elements[index];
  const code = parseCode(row?.code ?? '');
  const rulebook = library.rulebook(`isu/${(reading.protocol.season ?? '').replace('/', '-')}`);
  if (place === null || row === undefined || !code.ok || rulebook === undefined) return false;
  const value = elementValue(rulebook, code.value.element, { half: row.half ?? false });
  return (
    value.row !== null &&
    goeOfMarks(value.row, row.marks ?? [], rulebook.values.panel) === Math.round((row.goe ?? NaN) * 100)
  );
}

/** An element without value leaves no trace in any sum; the second-half mark of one neither. */
const isWorthless = (message: string, elements: readonly { readonly base?: number | null | undefined }[]): boolean => {
  const row = /^elements: row (\d+) missing|^elements\[(\d+)\]\.half/.exec(message);
  return row !== null && elements[Number(row[1] ?? row[2])]?.base === 0;
};

/** Is this silent difference (`compareSheet`) in a figure that some equation of the sheet would have held? */
export const isPinned = (
  message: string,
  reading: SheetReading,
  elements: readonly { readonly base?: number | null | undefined }[],
  library: Library,
): boolean => !UNPINNED.test(message) && !isWorthless(message, elements) && !isHeld(message, reading, library);

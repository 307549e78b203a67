import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Block, Cell, Style } from './document.ts';

const FACES = { sans: 'Helvetica', serif: 'Times-Roman', mono: 'Courier', narrow: 'Helvetica-Narrow' } as const;
const SCALE = { title: 1.5, heading: 1.2, plain: 1, small: 0.85 } as const;
const MARGIN = 36;

/** Sets a document by PostScript and distils it with Ghostscript. */
export async function pdfByGhostscript(blocks: readonly Block[], style: Style): Promise<Buffer> {
  const folder = await mkdtemp(join(tmpdir(), 'sheet-'));
  try {
    await writeFile(join(folder, 'sheet.ps'), postscriptOf(blocks, style), 'latin1');
    await promisify(execFile)('gs', [
      '-q',
      '-dSAFER',
      '-dBATCH',
      '-dNOPAUSE',
      '-sDEVICE=pdfwrite',
      '-dAutoRotatePages=/None',
      '-o',
      join(folder, 'sheet.pdf'),
      join(folder, 'sheet.ps'),
    ]);
    return await readFile(join(folder, 'sheet.pdf'));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

interface Pen {
  readonly out: string[];
  y: number;
  page: number;
}

function postscriptOf(blocks: readonly Block[], style: Style): string {
  const [width, height] = style.landscape ? [842, 595] : [595, 842];
  const pen: Pen = { out: [prologue(style, width, height)], y: height - MARGIN, page: 1 };
  const endPage = (): void => {
    if (style.folio !== null)
      pen.out.push(`${style.size} F ${width / 2} ${MARGIN / 2} (${escaped(`${style.folio} ${pen.page}`)}) C`);
    pen.out.push('grestore showpage');
    pen.page += 1;
    pen.y = height - MARGIN;
  };
  const startPage = (): unknown => pen.out.push('gsave TURN');
  const room = (needed: number): void => {
    if (pen.y - needed >= MARGIN) return;
    endPage();
    startPage();
  };
  startPage();
  for (const block of blocks) {
    if (block.kind === 'break') {
      endPage();
      startPage();
    } else if (block.kind === 'line') {
      const size = style.size * SCALE[block.role];
      room(size * 1.4);
      pen.y -= size * 1.4;
      pen.out.push(`${size} F ${MARGIN} ${pen.y} (${escaped(block.text)}) L`);
    } else {
      pen.y -= style.size * 0.5;
      for (const row of [...(block.head === null ? [] : [block.head]), ...block.rows]) {
        room(style.size * 1.45);
        pen.y -= style.size * 1.45;
        setRow(row, block, style, width, pen);
      }
      pen.y -= style.size * 0.5;
    }
  }
  endPage();
  return pen.out.join('\n');
}

/** `x y (text) L|C|R` sets text from, about or up to x. */
function prologue(style: Style, width: number, height: number): string {
  const turned = style.turn === 90 || style.turn === 270;
  const [paperWidth, paperHeight] = turned ? [height, width] : [width, height];
  const turn = {
    0: '',
    90: `${paperWidth} 0 translate 90 rotate`,
    180: `${width} ${height} translate 180 rotate`,
    270: `0 ${paperHeight} translate -90 rotate`,
  }[style.turn];
  return `%!PS-Adobe-3.0
<< /PageSize [${paperWidth} ${paperHeight}] >> setpagedevice
/Latin { findfont dup length dict begin { 1 index /FID ne { def } { pop pop } ifelse } forall /Encoding ISOLatin1Encoding def currentdict end definefont pop } def
/Face /${FACES[style.face]} Latin
/F { /Face findfont exch scalefont setfont } def
/L { 3 1 roll moveto show } def
/R { dup stringwidth pop 4 -1 roll exch sub 3 -1 roll moveto show } def
/C { dup stringwidth pop 2 div 4 -1 roll exch sub 3 -1 roll moveto show } def
/TURN { ${turn} } def`;
}

function setRow(
  row: readonly Cell[],
  block: Block & { kind: 'table' },
  style: Style,
  pageWidth: number,
  pen: Pen,
): void {
  const total = block.columns.reduce((sum, column) => sum + column.weight, 0);
  const width = pageWidth - 2 * MARGIN;
  let left = MARGIN;
  pen.out.push(`${style.size} F`);
  row.forEach((cell, i) => {
    const column = block.columns[i] ?? { align: 'left', weight: 1 };
    const right = left + (column.weight / total) * width;
    const text = typeof cell === 'string' ? cell : null;
    if (text !== null && text !== '') pen.out.push(shown(text, column.align, left + 2, right - 2, pen.y));
    if (text === null && typeof cell !== 'string') pen.out.push(shownParts(cell.parts, left + 2, pen.y, style));
    left = right;
  });
  if (style.rules !== 'none')
    pen.out.push(`0.3 setlinewidth ${MARGIN} ${pen.y - 2} moveto ${pageWidth - MARGIN} ${pen.y - 2} lineto stroke`);
}

function shown(text: string, align: 'left' | 'right' | 'center', left: number, right: number, y: number): string {
  if (align === 'left') return `${left} ${y} (${escaped(text)}) L`;
  return align === 'right' ? `${right} ${y} (${escaped(text)}) R` : `${(left + right) / 2} ${y} (${escaped(text)}) C`;
}

const shownParts = (
  parts: readonly { readonly text: string; readonly raised: boolean }[],
  x: number,
  y: number,
  style: Style,
): string =>
  [
    `${x} ${y} moveto`,
    ...parts.map((part) =>
      part.raised
        ? `${style.size * 0.75} F 0 ${style.size * 0.3} rmoveto (${escaped(part.text)}) show 0 ${-style.size * 0.3} rmoveto ${style.size} F`
        : `(${escaped(part.text)}) show`,
    ),
  ].join(' ');

/** Latin-1 only; the typographic minus and dash become what a typewriter has. */
const escaped = (text: string): string =>
  text
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\\()]/g, '\\$&')
    .replace(/[^\x20-\xff]/g, '?');

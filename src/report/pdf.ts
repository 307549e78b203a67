import { createRequire } from 'node:module';
import path from 'node:path';
import maker from 'pdfmake';
import type { ReportBlock, ReportPage, ReportRow } from './page.ts';

const require = createRequire(import.meta.url);
const FONTS = path.join(path.dirname(require.resolve('dejavu-fonts-ttf/package.json')), 'ttf');

// The standard fonts of PDF lose letters such as Ł, ş, ő in names; this family has them.
maker.setFonts({
  Page: { normal: path.join(FONTS, 'DejaVuSans.ttf'), bold: path.join(FONTS, 'DejaVuSans-Bold.ttf') },
  Letters: { normal: path.join(FONTS, 'DejaVuSansMono.ttf'), bold: path.join(FONTS, 'DejaVuSansMono-Bold.ttf') },
});
maker.setUrlAccessPolicy(() => false);
maker.setLocalAccessPolicy((file) => path.resolve(file).startsWith(FONTS));

const MM = 72 / 25.4;
const INK = '#14222b';
const QUIET = '#4a5860';
const RULE = '#74838b';

/** Sets pages on A4, one report page after another. */
export async function pdfOf(pages: readonly ReportPage[]): Promise<Uint8Array> {
  const buffer = await maker
    .createPdf({
      pageSize: 'A4',
      pageMargins: [13 * MM, 14 * MM, 13 * MM, 14 * MM],
      defaultStyle: { font: 'Page', fontSize: 10, lineHeight: 1.25, color: INK },
      info: { title: pages[0]?.title ?? 'Report', creator: 'Edgeledger' },
      content: pages.map((page, i) => pageContent(page, i > 0)),
    })
    .getBuffer();
  return new Uint8Array(buffer);
}

function pageContent(page: ReportPage, onNewPage: boolean): object {
  const size = page.large ? 11.5 : 10;
  return {
    ...(onNewPage ? { pageBreak: 'before' } : {}),
    table: {
      widths: [30 * MM, 1.2, '*'],
      dontBreakRows: true,
      body: [
        [{ text: '' }, { text: '' }, heading(page)],
        ...page.rows.map((row) => rowContent(row, size)),
        [{ text: '' }, { text: '' }, { text: page.foot, fontSize: 8, color: QUIET, margin: [4 * MM, 2 * MM, 0, 0] }],
      ],
    },
    layout: doubleRule,
  };
}

/** The one ornament: two upright lines between margin and body. */
const doubleRule = {
  hLineWidth: () => 0,
  vLineWidth: (i: number) => (i === 1 || i === 2 ? 0.8 : 0),
  vLineColor: () => RULE,
  paddingLeft: () => 0,
  paddingRight: (i: number) => (i === 0 ? 3 * MM : 0),
  paddingTop: () => 0,
  paddingBottom: () => 0,
};

const heading = (page: ReportPage): object => ({
  stack: [
    { text: page.title, bold: true, fontSize: page.large ? 19 : 16 },
    { text: page.meta, color: QUIET },
  ],
  margin: [4 * MM, 0, 0, 3 * MM],
});

const rowContent = (row: ReportRow, size: number): object[] => [
  { text: row.about, bold: true, alignment: 'right', fontSize: size, margin: [0, 3 * MM, 0, 3 * MM] },
  { text: '' },
  { stack: row.blocks.map((block) => blockContent(block, size)), margin: [4 * MM, 3 * MM, 0, 3 * MM] },
];

function blockContent(block: ReportBlock, size: number): object {
  switch (block.kind) {
    case 'text':
      return { text: block.text, bold: block.strong === true, fontSize: size, margin: [0, 0, 0, 1.5 * MM] };
    case 'lines':
      // A table without rows cannot be set.
      if (block.lines.length === 0) return { text: '' };
      return {
        table: {
          widths: [18 * MM, '*'],
          body: block.lines.map(([figure, words]) => [
            { text: figure, bold: true, alignment: 'right', fontSize: size },
            { text: words, fontSize: size, margin: [2 * MM, 0, 0, 1 * MM] },
          ]),
        },
        layout: 'noBorders',
      };
    case 'writing':
      return { canvas: writingLines(block.lines) };
    case 'picture':
      return {
        stack: [
          { svg: block.svg, width: 140 * MM },
          { text: block.caption, fontSize: 8.5, color: QUIET, margin: [0, 1 * MM, 0, 0] },
        ],
      };
  }
}

const writingLines = (lines: number): object[] =>
  Array.from({ length: lines }, (_, i) => ({
    type: 'line',
    x1: 0,
    y1: (i + 1) * 9 * MM,
    x2: 140 * MM,
    y2: (i + 1) * 9 * MM,
    lineWidth: 0.8,
    lineColor: RULE,
  }));

/** Plain text on A4, letter under letter, as a results page is printed. */
export async function pdfOfText(text: string): Promise<Uint8Array> {
  const buffer = await maker
    .createPdf({
      pageSize: 'A4',
      pageOrientation: 'landscape',
      pageMargins: [14 * MM, 12 * MM, 14 * MM, 12 * MM],
      defaultStyle: { font: 'Letters', fontSize: 8.5, lineHeight: 1.15 },
      content: text.split('\n').map((line) => ({ text: line === '' ? ' ' : line, preserveLeadingSpaces: true })),
    })
    .getBuffer();
  return new Uint8Array(buffer);
}

import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { Block, Cell, Style } from './document.ts';

/** The part of the PDF library that is used here; it ships no types. */
interface PdfMaker {
  setFonts(fonts: Record<string, Record<string, string>>): void;
  setUrlAccessPolicy(policy: () => boolean): void;
  setLocalAccessPolicy(policy: (path: string) => boolean): void;
  createPdf(document: object): { getBuffer(): Promise<Buffer> };
}

const pdfmake = createRequire(import.meta.url)('pdfmake') as PdfMaker;
const fonts = join(dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json')), 'ttf');
const face = (name: string): Record<string, string> => ({
  normal: join(fonts, `${name}.ttf`),
  bold: join(fonts, `${name}.ttf`),
  italics: join(fonts, `${name}.ttf`),
  bolditalics: join(fonts, `${name}.ttf`),
});

const FACES = {
  sans: 'DejaVuSans',
  serif: 'DejaVuSerif',
  mono: 'DejaVuSansMono',
  narrow: 'DejaVuSansCondensed',
} as const;

/** Sets a document with a PDF library, locked where passwords are given. */
export function pdfByPdfmake(
  blocks: readonly Block[],
  style: Style,
  passwords: { readonly ownerPassword?: string; readonly userPassword?: string } = {},
): Promise<Buffer> {
  pdfmake.setFonts({ Face: face(FACES[style.face]) });
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((path) => path.startsWith(fonts));
  const document = pdfmake.createPdf({
    ...passwords,
    pageSize: 'A4',
    pageOrientation: style.landscape ? 'landscape' : 'portrait',
    pageMargins: [30, 30, 30, 40],
    defaultStyle: { font: 'Face', fontSize: style.size },
    ...(style.folio === null
      ? {}
      : {
          footer: (page: number, pages: number) => ({
            text: `${style.folio ?? ''} ${page} / ${pages}`,
            alignment: 'center',
          }),
        }),
    content: contentOf(blocks, style),
  });
  return document.getBuffer();
}

function contentOf(blocks: readonly Block[], style: Style): unknown[] {
  const content: unknown[] = [];
  let breakBefore = false;
  for (const block of blocks) {
    if (block.kind === 'break') {
      breakBefore = true;
      continue;
    }
    content.push({
      ...(block.kind === 'line' ? lineOf(block, style) : tableOf(block, style)),
      ...(breakBefore ? { pageBreak: 'before' } : {}),
    });
    breakBefore = false;
  }
  return content;
}

const SCALE = { title: 1.5, heading: 1.2, plain: 1, small: 0.8 } as const;
const lineOf = (block: Block & { kind: 'line' }, style: Style): object => ({
  text: block.text,
  fontSize: style.size * SCALE[block.role],
  margin: [0, 2, 0, 2],
  preserveLeadingSpaces: true,
});

function tableOf(block: Block & { kind: 'table' }, style: Style): object {
  const total = block.columns.reduce((sum, column) => sum + column.weight, 0);
  const width = (style.landscape ? 842 : 595) - 60;
  const gap = style.size * 0.6;
  const rows = [...(block.head === null ? [] : [block.head]), ...block.rows].map((row) => {
    const cells = block.columns.map((column, i) => ({
      ...cellOf(row[i] ?? '', style),
      alignment: column.align,
      noWrap: true,
    }));
    return row.length === 1 && block.columns.length > 1
      ? [{ ...cellOf(row[0] ?? '', style), colSpan: block.columns.length }, ...cells.slice(1)]
      : cells;
  });
  return {
    margin: [0, 3, 0, 5],
    layout: {
      ...(style.rules === 'none'
        ? { hLineWidth: () => 0, vLineWidth: () => 0 }
        : style.rules === 'rows'
          ? { vLineWidth: () => 0, hLineWidth: () => 0.5 }
          : {}),
      paddingLeft: () => gap / 2,
      paddingRight: () => gap / 2,
      paddingTop: () => 1,
      paddingBottom: () => 1,
    },
    table: {
      headerRows: block.head === null ? 0 : 1,
      widths: block.columns.map((column) => (column.weight / total) * width - gap),
      body: rows,
    },
  };
}

const cellOf = (cell: Cell, style: Style): object =>
  typeof cell === 'string'
    ? { text: cell }
    : {
        text: cell.parts.map((part) =>
          part.raised ? { text: part.text, sup: true, fontSize: style.size } : { text: part.text },
        ),
      };

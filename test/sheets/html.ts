import { type Block, type Cell, plainText, type Style } from './document.ts';

const FACES = {
  sans: "'DejaVu Sans', 'Droid Sans Fallback', sans-serif",
  serif: "'Liberation Serif', serif",
  mono: "'Liberation Mono', monospace",
  narrow: "'Liberation Sans Narrow', 'Droid Sans Fallback', sans-serif",
} as const;

/** Sets a document as a page for the browser; printed by Chromium or read as it is. */
export const htmlPage = (blocks: readonly Block[], style: Style): string =>
  `<!doctype html><html><head><meta charset="utf-8"><title>Fjordpokal</title><style>${css(style)}</style></head><body>${blocks.map(blockHtml).join('\n')}</body></html>`;

const css = (style: Style): string => `
@page { size: A4 ${style.landscape ? 'landscape' : 'portrait'}; margin: 12mm }
body { font: ${style.size}px ${FACES[style.face]}; margin: 0 }
table { width: 100%; border-collapse: collapse; margin: 4px 0 8px; table-layout: fixed }
td, th { padding: 1px 2px; white-space: nowrap; font-weight: normal; ${style.rules === 'none' ? '' : style.rules === 'rows' ? 'border-bottom: 1px solid #999' : 'border: 1px solid #777'} }
tr { break-inside: avoid }
h1 { font-size: 1.5em; margin: 8px 0 2px } h2 { font-size: 1.15em; margin: 2px 0 } p { margin: 2px 0; white-space: pre-wrap } small { display: block }
.break { break-before: page }
sup { font-size: 70% }`;

const TAGS = { title: 'h1', heading: 'h2', plain: 'p', small: 'small' } as const;

function blockHtml(block: Block): string {
  if (block.kind === 'break') return '<div class="break"></div>';
  if (block.kind === 'line') return `<${TAGS[block.role]}>${escapeHtml(block.text)}</${TAGS[block.role]}>`;
  const total = block.columns.reduce((sum, column) => sum + column.weight, 0);
  const columns = block.columns
    .map((column) => `<col style="width:${((column.weight / total) * 100).toFixed(2)}%">`)
    .join('');
  const head = block.head === null ? '' : `<thead>${rowHtml(block.head, block, 'th')}</thead>`;
  return `<table><colgroup>${columns}</colgroup>${head}<tbody>${block.rows.map((row) => rowHtml(row, block, 'td')).join('\n')}</tbody></table>`;
}

function rowHtml(row: readonly Cell[], block: Block & { kind: 'table' }, tag: 'td' | 'th'): string {
  const span = row.length === 1 && block.columns.length > 1 ? ` colspan="${block.columns.length}"` : '';
  const cells = row.map(
    (cell, i) => `<${tag}${span} style="text-align:${block.columns[i]?.align ?? 'left'}">${cellHtml(cell)}</${tag}>`,
  );
  return `<tr>${cells.join('')}</tr>`;
}

const cellHtml = (cell: Cell): string =>
  typeof cell === 'string'
    ? escapeHtml(plainText(cell))
    : cell.parts.map((part) => (part.raised ? `<sup>${escapeHtml(part.text)}</sup>` : escapeHtml(part.text))).join('');

const escapeHtml = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

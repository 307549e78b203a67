import { constants, deflateRawSync, deflateSync } from 'node:zlib';

/** Body of an indirect object: a dictionary as text, or a stream with its dictionary entries. */
type PdfObject = string | { readonly entries: string; readonly bytes: Uint8Array };

/** Writes a PDF by hand, so that a test can lie in it. Object n is `objects[n - 1]`; 1 is the catalogue. */
export function rawPdf(objects: readonly PdfObject[], trailer = ''): Uint8Array {
  const parts: Buffer[] = [Buffer.from('%PDF-1.7\n')];
  const offsets: number[] = [];
  let length = parts[0]?.length ?? 0;
  const add = (bytes: Uint8Array | string): void => {
    const part = Buffer.from(bytes as string);
    parts.push(part);
    length += part.length;
  };
  objects.forEach((object, i) => {
    offsets.push(length);
    if (typeof object === 'string') add(`${i + 1} 0 obj\n${object}\nendobj\n`);
    else {
      const declared = object.entries.includes('/Length') ? '' : `/Length ${object.bytes.length}`;
      add(`${i + 1} 0 obj\n<< ${object.entries} ${declared} >>\nstream\n`);
      add(object.bytes);
      add('\nendstream\nendobj\n');
    }
  });
  const start = length;
  const entries = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  add(`xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${entries}`);
  add(`trailer\n<< /Size ${objects.length + 1} /Root 1 0 R ${trailer} >>\nstartxref\n${start}\n%%EOF\n`);
  return new Uint8Array(Buffer.concat(parts));
}

const text = (content: string): Uint8Array => new TextEncoder().encode(content);
const FONT = '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>';
const page = (extra = '', content = '4 0 R'): string =>
  `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Resources << /Font << /F1 5 0 R >> ${extra} >> /Contents ${content} >>`;
const WORDS = text('BT /F1 10 Tf 50 700 Td (1 3Lz+3T 10.10 1.00) Tj ET');

/** One page that shows `1 3Lz+3T 10.10 1.00`, with the given objects in place of its own. */
export const onePage = (
  changed: Readonly<Record<number, PdfObject>> = {},
  more: readonly PdfObject[] = [],
): Uint8Array =>
  rawPdf([
    changed[1] ?? '<< /Type /Catalog /Pages 2 0 R >>',
    changed[2] ?? '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    changed[3] ?? page(),
    changed[4] ?? { entries: '', bytes: WORDS },
    changed[5] ?? FONT,
    ...more,
  ]);

/** So many pages with one word each. */
export function manyPages(count: number): Uint8Array {
  const kids = Array.from({ length: count }, (_, i) => `${i + 5} 0 R`).join(' ');
  return rawPdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    `<< /Type /Pages /Kids [${kids}] /Count ${count} >>`,
    FONT,
    { entries: '', bytes: WORDS },
    ...Array.from(
      { length: count },
      () =>
        '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Resources << /Font << /F1 3 0 R >> >> /Contents 4 0 R >>',
    ),
  ]);
}

/**
 * A stream of about a kilobyte a megabyte that unpacks to so many megabytes of blanks; twice packed, a
 * few kilobytes in all. Its check sum is wrong, as a hostile one's may be.
 */
export function bomb(megabytes: number, times: 1 | 2): Uint8Array {
  const piece = deflateRawSync(Buffer.alloc(1_000_000, 0x20), { level: 9, finishFlush: constants.Z_FULL_FLUSH });
  const pieces = Array.from({ length: megabytes }, () => piece);
  let bytes: Uint8Array = Buffer.concat([Buffer.from([0x78, 0x9c]), ...pieces, Buffer.from([3, 0, 0, 0, 0, 0])]);
  if (times === 2) bytes = deflateSync(bytes, { level: 9 });
  return onePage({ 4: { entries: `/Filter [${'/FlateDecode '.repeat(times)}]`, bytes } });
}

/** Blanks with a show operator now and then, so that the content cannot be skipped. */
export function wordBomb(megabytes: number): Uint8Array {
  const chunk = Buffer.from('BT /F1 10 Tf 50 700 Td (3Lz) Tj ET\n');
  const bytes = deflateSync(Buffer.alloc(megabytes * 1_000_000, chunk), { level: 9 });
  return onePage({ 4: { entries: '/Filter /FlateDecode', bytes } });
}

/** Forms that draw the next form ten times: ten to the power of `depth` words from a kilobyte. */
export function formTower(depth: number): Uint8Array {
  const forms = Array.from({ length: depth }, (_, i) => ({
    entries: `/Type /XObject /Subtype /Form /BBox [0 0 595 842] /Resources << /Font << /F1 5 0 R >> /XObject << /X ${Math.min(i + 7, depth + 5)} 0 R >> >>`,
    bytes: i === depth - 1 ? WORDS : text('/X Do '.repeat(10)),
  }));
  return onePage({ 3: page('/XObject << /X 6 0 R >>'), 4: { entries: '', bytes: text('/X Do') } }, forms);
}

/** A tree of pages so deep that walking it down takes that many steps; the page is its only leaf. */
export function deepTree(depth: number): Uint8Array {
  const kid = (i: number): string => (i + 1 === depth ? '3 0 R' : `${i + 7} 0 R`);
  const nodes = Array.from(
    { length: depth },
    (_, i) => `<< /Type /Pages /Parent ${i === 0 ? 2 : i + 5} 0 R /Kids [${kid(i)}] /Count 1 >>`,
  );
  return onePage({ 2: '<< /Type /Pages /Kids [6 0 R] /Count 1 >>' }, nodes);
}

/** A font of two-byte letters whose table of letters is the given program. */
const lettersBy = (program: string): Uint8Array =>
  onePage(
    {
      4: { entries: '', bytes: text('BT /F1 10 Tf 50 700 Td <00410042> Tj ET') },
      5: '<< /Type /Font /Subtype /Type0 /BaseFont /Own /Encoding /Identity-H /DescendantFonts [6 0 R] /ToUnicode 7 0 R >>',
    },
    [
      '<< /Type /Font /Subtype /CIDFontType2 /BaseFont /Own /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /DW 500 >>',
      { entries: '', bytes: text(program) },
    ],
  );

const range = (from: string, to: string, letter: string): string =>
  `/CIDInit /ProcSet findresource begin begincmap 1 begincodespacerange <0000> <ffff> endcodespacerange\n1 beginbfrange <${from}> <${to}> <${letter}> endbfrange endcmap end`;

export const HOSTILE = {
  lettersOfEverything: () => lettersBy(range('0000', 'ffffffff', '0041')),
  lettersBackwards: () => lettersBy(range('ffff', '0000', '0041')),
  lettersOfNonsense: () => lettersBy('%%% ((((( <<<<< beginbfrange <zz> [[[ endbfrange'),
  lettersThatLoop: () => lettersBy('/CIDInit /Loop usecmap begincmap /Own usecmap endcmap'),
  hugeRows: () =>
    onePage({
      4: {
        entries: '/Filter /FlateDecode /DecodeParms << /Predictor 12 /Columns 1000000000 /Colors 32 >>',
        bytes: deflateSync(WORDS),
      },
    }),
  hugeTable: () =>
    rawPdf(
      [
        '<< /Type /Catalog /Pages 2 0 R >>',
        '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
        page(),
        { entries: '', bytes: WORDS },
        FONT,
      ],
      '/Prev 1000000000 /XRefStm 1000000000',
    ),
  hugeIndex: () =>
    onePage({ 5: '6 0 R' }, [
      { entries: '/Type /ObjStm /N 1000000000 /First 1000000000', bytes: text('1 0 2 0 3 0 <<>>') },
    ]),
  deepTree: () => deepTree(5000),
  selfDrawingForm: () =>
    onePage({ 3: page('/XObject << /X 6 0 R >>'), 4: { entries: '', bytes: text('/X Do') } }, [
      {
        entries: '/Type /XObject /Subtype /Form /BBox [0 0 595 842] /Resources << /XObject << /X 6 0 R >> >>',
        bytes: text('/X Do'),
      },
    ]),
  script: () =>
    onePage(
      { 1: '<< /Type /Catalog /Pages 2 0 R /OpenAction 6 0 R /Names << /JavaScript << /Names [(a) 6 0 R] >> >> >>' },
      ['<< /Type /Action /S /JavaScript /JS (globalThis.scriptRan = true; while \\(true\\) {}) >>'],
    ),
  declaredLength: () => onePage({ 4: { entries: '/Length 1000000000', bytes: WORDS } }),
  hugePaper: () => onePage({ 3: page().replace('595 842', '1000000000 1000000000') }),
  hugePicture: () =>
    onePage({ 3: page('/XObject << /X 6 0 R >>'), 4: { entries: '', bytes: text('/X Do') } }, [
      {
        entries:
          '/Type /XObject /Subtype /Image /Width 100000 /Height 100000 /BitsPerComponent 8 /ColorSpace /DeviceGray',
        bytes: text('x'),
      },
    ]),
  nestedArray: () => onePage({ 4: { entries: '', bytes: text(`${'['.repeat(200_000)} TJ`) } }),
  nestedObject: () => onePage({ 5: `${'<< /A '.repeat(100_000)}1${' >>'.repeat(100_000)}` }),
  cyclicTree: () => onePage({ 2: '<< /Type /Pages /Kids [2 0 R 2 0 R] /Count 1000000000 >>' }),
  lyingCount: () => onePage({ 2: '<< /Type /Pages /Kids [3 0 R] /Count 100 >>' }),
  lettersWithoutNames: () =>
    onePage({
      5: '<< /Type /Font /Subtype /Type1 /BaseFont /Unknown /FirstChar 0 /LastChar 255 /Encoding << /Type /Encoding /Differences [32 /g1 /g2 /g3 /g4 /g5 /g6 /g7 /g8 /g9 /ga /gb /gc /gd /ge /gf /gg /gh /gi /gj /gk /gl /gm /gn /go /gp /gq /gr /gs /gt /gu /gv /gw /gx /gy /gz] >> >>',
      4: { entries: '', bytes: text('BT /F1 10 Tf 50 700 Td (\\001\\002\\003\\004 \\005\\006) Tj ET') },
    }),
  fontLoop: () =>
    onePage({ 5: '<< /Type /Font /Subtype /Type0 /BaseFont /Loop /Encoding /Identity-H /DescendantFonts [5 0 R] >>' }),
} as const;

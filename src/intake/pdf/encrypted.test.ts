import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import { onePage } from '../../../test/sheets/hostile.ts';
import { pdfByPdfmake } from '../../../test/sheets/pdfmake.ts';
import { readSheet } from '../index.ts';
import { nodeReaders } from '../node.ts';
import { loadPdfLibrary, pdfTables } from './load.ts';
import { pagesOfPdf } from './pages.ts';

interface Passwords {
  readonly ownerPassword: string;
  readonly userPassword?: string;
}

/** The plain page of the hostile files, locked by Ghostscript with a key of so many bits. */
async function byGhostscript({ ownerPassword, userPassword = '' }: Passwords, bits: 40 | 128): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'locked-'));
  try {
    const [plain, locked] = [join(folder, 'plain.pdf'), join(folder, 'locked.pdf')];
    await writeFile(plain, onePage());
    const key = [`-dEncryptionR=${bits === 40 ? 2 : 3}`, `-dKeyLength=${bits}`];
    const words = [`-sOwnerPassword=${ownerPassword}`, `-sUserPassword=${userPassword}`];
    const common = ['-q', '-dNOPAUSE', '-dBATCH', '-dSAFER', '-sDEVICE=pdfwrite'];
    await promisify(execFile)('gs', [...common, ...key, ...words, `-sOutputFile=${locked}`, plain]);
    return new Uint8Array(await readFile(locked));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

const STYLE = { face: 'sans', size: 10, landscape: false, rules: 'none', folio: null, turn: 0 } as const;
const byPdfmake = async (passwords: Passwords): Promise<Uint8Array> =>
  new Uint8Array(await pdfByPdfmake([{ kind: 'line', text: '1 3Lz+3T 10.10 1.00', role: 'plain' }], STYLE, passwords));

interface Outcome {
  readonly words: readonly string[];
  readonly problems: readonly string[];
}

async function read(bytes: Uint8Array): Promise<Outcome> {
  const outcome = { words: [] as string[], problems: [] as string[] };
  for await (const page of pagesOfPdf(await loadPdfLibrary(), bytes, { tables: pdfTables() })) {
    if (page.ok) outcome.words.push(...page.value.tokens.map((token) => token.text));
    else outcome.problems.push(page.error.code);
  }
  return outcome;
}

const MAKERS: readonly (readonly [string, (passwords: Passwords) => Promise<Uint8Array>])[] = [
  ['Ghostscript, 40 bits', (passwords) => byGhostscript(passwords, 40)],
  ['Ghostscript, 128 bits', (passwords) => byGhostscript(passwords, 128)],
  ['a PDF library', byPdfmake],
];

describe('a locked PDF', () => {
  it.each(MAKERS)('that asks for a password is answered with what to do (%s)', async (_maker, make) => {
    const bytes = await make({ ownerPassword: 'owner', userPassword: 'reader' });
    expect(await read(bytes)).toEqual({ words: [], problems: ['pdf.encrypted'] });
  });

  it.each(MAKERS)('that restricts only what one may do with it is read (%s)', async (_maker, make) => {
    const bytes = await make({ ownerPassword: 'owner' });
    expect(await read(bytes)).toEqual({ words: ['1', '3Lz+3T', '10.10', '1.00'], problems: [] });
  });

  it('is answered through the guarded way too, once and in plain words', async () => {
    const bytes = await byPdfmake({ ownerPassword: 'owner', userPassword: 'reader' });
    const problems = [];
    for await (const item of readSheet({ bytes }, { library: shippedLibrary(), ...nodeReaders() }))
      if ('problem' in item) problems.push(item.problem);
    expect(problems).toMatchObject([{ code: 'pdf.encrypted', at: 'document' }]);
    expect(problems[0]?.advice).toContain('password');
  });
});

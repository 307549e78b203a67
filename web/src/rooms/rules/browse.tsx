import { useMemo } from 'react';
import type { Rulebook } from '../../../../src/rulebook/index.ts';
import { Asks } from '../../parts/why.tsx';
import { asWords, FAMILIES, leavesOf, matches, pathWords, type Leaf } from './rule-words.ts';
import { Scale } from './scale.tsx';
import { Sourced } from './sourced.tsx';

interface BrowseProps {
  readonly book: Rulebook;
  readonly search: string;
}

/** A rulebook family by family; a search opens the families in which something is found. */
export function Browse({ book, search }: BrowseProps) {
  const families = useMemo(() => leavesOf(book), [book]);
  const wanted = search.trim();
  const found = FAMILIES.flatMap(({ key, name }) => {
    const leaves = (families.get(key) ?? []).filter((leaf) => matches(searchText(leaf, name), wanted));
    return leaves.length === 0 ? [] : [{ key, name, leaves }];
  });
  const codes = book.rowCodes().filter((code) => matches(code, wanted));
  const values = found.reduce((all, { leaves }) => all + leaves.length, 0);
  return (
    <>
      <p className="quiet" role="status">
        {values} values{codes.length > 0 ? ` and ${codes.length} rows of the scale` : ''}
        {wanted === '' ? '. Hover a value for its source, or press it.' : ` with “${wanted}”.`}
      </p>
      {codes.length > 0 && (
        <Drawer key={`scale ${wanted}`} name="Scale of values" count={codes.length} open={wanted !== ''}>
          <Scale book={book} codes={codes} />
        </Drawer>
      )}
      {found.map(({ key, name, leaves }) => (
        <Drawer key={`${key} ${wanted}`} name={name} count={leaves.length} open={wanted !== ''}>
          <ul className="rules">
            {leaves.map((leaf) => (
              <Rule key={leaf.path.join('.')} leaf={leaf} book={book} />
            ))}
          </ul>
        </Drawer>
      ))}
      {values === 0 && codes.length === 0 && <p>Nothing is found. Try a code, a category, or a word such as fall.</p>}
    </>
  );
}

const searchText = ({ path, value }: Leaf, family: string): string =>
  `${path.join('.')} ${pathWords(path)} ${family} ${asWords(value)}`;

interface DrawerProps {
  readonly name: string;
  readonly count: number;
  readonly open: boolean;
  readonly children: React.ReactNode;
}

function Drawer({ name, count, open, children }: DrawerProps) {
  return (
    <details className="drawer" open={open}>
      <summary>
        {name}, {count}
      </summary>
      <Asks>{children}</Asks>
    </details>
  );
}

function Rule({ leaf, book }: { leaf: Leaf; book: Rulebook }) {
  const name = pathWords(leaf.path.slice(1));
  return (
    <li>
      <span>{name}</span>
      <span className="n">
        <Sourced
          rule={name}
          value={asWords(leaf.value)}
          citation={book.citation(leaf.path.join('.'))}
          book={book.title}
        />
      </span>
    </li>
  );
}

interface Entry<T> {
  readonly content: string;
  readonly value: number;
  readonly tie: number;
  readonly what: T;
}

/** Values closer than this are equal: the rest is rounding of sums of doubles. */
const SAME = 1e-11;

const isSame = (a: number, b: number): boolean => Math.abs(a - b) <= SAME;

/** The better one first; of equal values the one with the higher second value. */
const byWorth = <T>(a: Entry<T>, b: Entry<T>): number =>
  a.value === b.value || isSame(a.value, b.value) ? b.tie - a.tie : b.value - a.value;

/** The best so many candidates, one for each content; ties go to the higher second value. */
export class Top<T> {
  private list: readonly Entry<T>[] = [];
  private readonly size: number;

  constructor(size: number) {
    this.size = size;
  }

  /** Value that a newcomer must reach; -Infinity while there is room. */
  get threshold(): number {
    return this.list.length < this.size ? -Infinity : (this.list.at(-1)?.value ?? -Infinity);
  }

  /** Second value of the last of a full list; a newcomer of equal value must exceed it. */
  get tie(): number {
    return this.list.length < this.size ? -Infinity : (this.list.at(-1)?.tie ?? -Infinity);
  }

  add(content: string, value: number, tie: number, what: T): void {
    const fresh: Entry<T> = { content, value, tie, what };
    const known = this.list.find((one) => one.content === content);
    if (known !== undefined && byWorth(known, fresh) <= 0) return;
    const others = this.list.filter((one) => one.content !== content);
    this.list = [...others, fresh].sort(byWorth).slice(0, this.size);
  }

  get found(): readonly { readonly value: number; readonly what: T }[] {
    return this.list;
  }
}

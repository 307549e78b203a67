/** The best so many candidates, one for each content; ties go to the higher second value. */
export class Top<T> {
  private list: readonly {
    readonly content: string;
    readonly value: number;
    readonly tie: number;
    readonly what: T;
  }[] = [];
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
    const known = this.list.find((one) => one.content === content);
    if (known !== undefined && (known.value > value || (known.value === value && known.tie >= tie))) return;
    const others = this.list.filter((one) => one.content !== content);
    this.list = [...others, { content, value, tie, what }]
      .sort((a, b) => b.value - a.value || b.tie - a.tie)
      .slice(0, this.size);
  }

  get found(): readonly { readonly value: number; readonly what: T }[] {
    return this.list;
  }
}

/** The part of the general solver that is used here. */
export interface Solver {
  solve(
    problem: string,
    options: { readonly mip_rel_gap: number },
  ): {
    readonly Status: string;
    readonly ObjectiveValue: number;
  };
}

type Loader = () => Promise<Solver>;

const isLoader = (value: unknown): value is Loader => typeof value === 'function';

/** Loads HiGHS (WebAssembly); its module form and its types do not agree, hence the look at what came. */
export async function loadSolver(): Promise<Solver> {
  const module: { readonly default: unknown } = await import('highs');
  const found = module.default;
  if (isLoader(found)) return found();
  throw new Error('the solver cannot be loaded');
}

/** The few functions of the reference statistics library that tests compare with; it ships no types. */
declare module 'jstat' {
  interface Distribution<A extends readonly number[]> {
    cdf(x: number, ...parameters: A): number;
    inv(p: number, ...parameters: A): number;
    mean(...parameters: A): number;
  }
  const library: {
    readonly jStat: {
      gammaln(x: number): number;
      readonly binomial: { cdf(k: number, n: number, p: number): number };
      readonly normal: Distribution<readonly [mean: number, sd: number]>;
      readonly beta: Distribution<readonly [a: number, b: number]>;
      readonly studentt: Distribution<readonly [df: number]>;
    };
  };
  export default library;
}

/** The part of the reference statistics library that the tests use; it ships no types. */
declare module 'jstat' {
  const jstat: {
    readonly binomial: { cdf(k: number, n: number, p: number): number };
    readonly beta: { inv(p: number, a: number, b: number): number };
  };
  export default jstat;
}

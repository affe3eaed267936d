declare module 'jstat' {
  /** The few functions that the checks use; the package ships without types. */
  const package_: {
    readonly jStat: {
      mean(values: readonly number[]): number
      stdev(values: readonly number[], sample: boolean): number
      range(values: readonly number[]): number
      median(values: readonly number[]): number
      coeffvar(values: readonly number[]): number
      pooledstdev(groups: readonly (readonly number[])[]): number
      gammaln(x: number): number
      ibeta(x: number, a: number, b: number): number
      readonly normal: {
        cdf(x: number, mean: number, deviation: number): number
        inv(share: number, mean: number, deviation: number): number
      }
      readonly studentt: { cdf(x: number, degrees: number): number; inv(share: number, degrees: number): number }
      readonly centralF: {
        cdf(x: number, d1: number, d2: number): number
        inv(share: number, d1: number, d2: number): number
      }
      readonly beta: { inv(share: number, a: number, b: number): number }
      readonly gamma: { cdf(x: number, shape: number, scale: number): number }
      readonly chisquare: { cdf(x: number, degrees: number): number }
      readonly tukey: { inv(share: number, means: number, degrees: number): number }
    }
  }
  export default package_
}

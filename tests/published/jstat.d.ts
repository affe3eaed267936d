declare module 'jstat' {
  /** The few functions that the checks use; the package ships without types. */
  const package_: {
    readonly jStat: {
      mean(values: readonly number[]): number
      stdev(values: readonly number[], sample: boolean): number
      range(values: readonly number[]): number
      pooledstdev(groups: readonly (readonly number[])[]): number
    }
  }
  export default package_
}

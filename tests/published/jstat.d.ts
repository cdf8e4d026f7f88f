/** What these checks use of jStat 1.9, which brings no types. */
declare module 'jstat' {
  const jStat: {
    mean(values: readonly number[]): number
    median(values: readonly number[]): number
    diff(values: readonly number[]): number[]
    rank(values: readonly number[]): number[]
    normal: {
      cdf(x: number, mean: number, sd: number): number
      inv(p: number, mean: number, sd: number): number
    }
  }
  export default jStat
}

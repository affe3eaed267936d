/** What a person can rely on, and the tests that show it; each named by its file and its own title. */
export type Statement = {
  /** T: at the bench, M: on the Schedule, E: on the pages of a design. */
  readonly id: string
  readonly says: string
  readonly tests: readonly Shown[]
  /** No test asserts a time: lines that `npm run bench` measures and prints, as they begin in its sources. */
  readonly measured?: readonly Shown[]
}
type Shown = { readonly file: string; readonly title: string }

/** Tests of one file by their titles. */
export const of = (file: string, ...titles: readonly string[]): readonly Shown[] =>
  titles.map((title) => ({ file, title }))

export const journeys = (name: string, ...titles: readonly string[]) => of(`tests/journeys/${name}.test.ts`, ...titles)
export const api = (name: string, ...titles: readonly string[]) =>
  of(`apps/api/src/features/${name}.test.ts`, ...titles)
export const web = (name: string, ...titles: readonly string[]) => of(`apps/web/${name}.test.ts`, ...titles)
export const trade = (name: string, ...titles: readonly string[]) => of(`packages/trade/src/${name}.test.ts`, ...titles)

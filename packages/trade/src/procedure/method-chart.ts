/** Where a coordinate comes from: a fixed number, the emulsion content of the mix, a reading, or a result. */
export type ChartValue =
  | { readonly at: string }
  | { readonly content: true }
  | { readonly reading: { readonly step: string; readonly key: string } }
  | { readonly result: string }

/** How the tests of a method are drawn together. Methods that name the same `key` share one chart. */
export type MethodChart = {
  readonly key: string
  readonly title: string
  readonly x: { readonly label: string; readonly unit: string }
  readonly y: { readonly label: string; readonly unit: string }
  /** Lines of one test, each with its points; a line without a name is the test itself. */
  readonly lines: readonly {
    readonly label?: string
    readonly points: readonly { readonly x: ChartValue; readonly y: ChartValue }[]
  }[]
}

export type ChartedTest = {
  /** Those that stand and count, in their declared units. */
  readonly readings: readonly {
    readonly step: string
    readonly key: string
    readonly repeat: number
    readonly value: string
    readonly unit?: string
  }[]
  readonly results: readonly { readonly key: string; readonly value: string; readonly unit: string }[]
  /** Emulsion, % of dry aggregate; null for what depends on no content. */
  readonly content: string | null
}
/** Digits in the units of the axes. */
export type ChartedPoint = { readonly line: number; readonly x: string; readonly y: string }

/** The points of one test: those whose two values are there, in the units of the axes. Nothing is converted or made up. */
export function chartPoints(chart: MethodChart, test: ChartedTest): readonly ChartedPoint[] {
  return chart.lines.flatMap(({ points }, line) =>
    points.flatMap((point) => {
      const [x, y] = [valueOf(point.x, test, chart.x.unit), valueOf(point.y, test, chart.y.unit)]
      return x === undefined || y === undefined ? [] : [{ line, x, y }]
    }),
  )
}

function valueOf(value: ChartValue, { readings, results, content }: ChartedTest, unit: string): string | undefined {
  if ('at' in value) return value.at
  if ('content' in value) return content ?? undefined
  if ('result' in value) return results.find((one) => one.key === value.result && one.unit === unit)?.value
  const { step, key } = value.reading
  const found = readings.find((one) => one.step === step && one.key === key && one.repeat === 1)
  return found && (found.unit ?? unit) === unit ? found.value : undefined
}

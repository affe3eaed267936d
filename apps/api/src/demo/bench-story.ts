import type { PlanSeries, SpecimenRow } from '@curebook/contract/designs'
import type { BenchHand } from './demo-bench.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { LoadHand } from './demo-load.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import { minutesAfter, type Story } from './demo-story.ts'
import type { WeighedRow } from './marrowdale-accidents.ts'

export type Specimen = SpecimenRow & { readonly row: WeighedRow }
/** Where and with what the work is done, and the shares that batches are weighed to. */
export type Scene = {
  readonly calendar: DemoCalendar
  readonly instruments: DemoInstruments
  readonly contents: PlanSeries['contents']
}

export type Moment = readonly [day: number, time: string]
/** A load with its check specimens, weighed warm. */
export type CheckedLoad = {
  readonly hand: LoadHand
  readonly temperature: readonly [at: Moment, typed: string]
  /** By label: what it weighed at each of these moments. */
  readonly checks: Readonly<Record<string, readonly string[]>>
  readonly at: readonly Moment[]
}
export type DiscTimes = {
  cast: Moment
  ovens: readonly [string, string]
  out: Moment
  weigh: Moment
  soak: Moment
  soakMinutes: (disc: Specimen) => number
  /** Into the bath at another time than in turn, every 15 min from `soak`. */
  soakedAt: Readonly<Record<string, Moment>>
  dryOut: Moment
  last: Moment
  /** Not soaked and weighed with the others. */
  lost: readonly Specimen[]
  /** The last weighing as it was first typed, where that was not what the balance showed, by label. */
  slips?: Readonly<Record<string, { readonly typed: string; readonly reason: string }>>
  /** What was seen after the run, by label. */
  seen?: Readonly<Record<string, string>>
  /** Cured, or dried back, as one load of its oven that is shown to be dry. */
  cureLoad?: CheckedLoad
  dryLoad?: CheckedLoad
}

/** Discs from their batches to the last weighing. */
export function tellDiscs(
  story: Story,
  { calendar, instruments, contents }: Scene,
  hand: BenchHand,
  discs: readonly Specimen[],
  times: DiscTimes,
): void {
  const at = ([day, time]: Moment) => calendar.at(day, time)
  const all = discs.map(({ testId }) => testId)
  discs.forEach((disc, index) =>
    tellBatch(
      story,
      hand,
      disc,
      minutesAfter(at(times.cast), 9 * index),
      instruments['BAL-1'],
      instruments['BAL-2'],
      800,
      contents,
    ),
  )
  const [first, second] = [all.slice(0, 8), all.slice(8)]
  const cure = moverOf(hand, times.cureLoad, 'cure', instruments['OV-1'])
  story.when(calendar.at(times.cast[0], times.ovens[0]), () => cure.putIn(first))
  story.when(calendar.at(times.cast[0], times.ovens[1]), () => cure.putIn(second))
  if (times.cureLoad) tellChecks(story, at, times.cureLoad, discs, instruments['BAL-1'])
  story.when(at(times.out), () => cure.takeOut(all))
  story.when(minutesAfter(at(times.out), 60), () => hand.confirm(all, 'cool', 'end'))
  const kept = discs.filter((disc) => !times.lost.includes(disc))
  const dry = moverOf(hand, times.dryLoad, 'dry-back', instruments['OV-2'])
  discs.forEach(({ testId, row }, index) =>
    story.when(minutesAfter(at(times.weigh), 1.5 * index), () =>
      hand.read(testId, 'weigh-before', 'mass', row.w1!, instruments['BAL-1']),
    ),
  )
  discs.forEach((disc, index) => {
    if (times.lost.includes(disc)) return
    const { testId, label } = disc
    const moment = times.soakedAt[label]
    const soaked = moment ? at(moment) : minutesAfter(at(times.soak), 15 * index)
    const started = minutesAfter(soaked, times.soakMinutes(disc))
    const seen = times.seen?.[label]
    story.when(soaked, () => hand.confirm([testId], 'soak', 'start', instruments['BATH-1']))
    story.when(started, () => hand.confirm([testId], 'abrade', 'start', instruments['WTA-1']))
    if (seen) story.when(minutesAfter(started, 8), () => hand.read(testId, 'abrade', 'observation', seen))
    story.when(minutesAfter(started, 12), () => dry.putIn([testId]))
  })
  kept.forEach(({ testId, row, label }, index) => {
    const weighed = minutesAfter(at(times.last), 1.3 * index)
    const slip = times.slips?.[label]
    story.when(weighed, () => hand.read(testId, 'weigh-after', 'mass', slip?.typed ?? row.w2!, instruments['BAL-1']))
    if (slip) story.when(minutesAfter(weighed, 1), () => hand.correct(testId, 'weigh-after', row.w2!, slip.reason))
  })
  const ids = kept.map(({ testId }) => testId)
  if (times.dryLoad) tellChecks(story, at, times.dryLoad, discs, instruments['BAL-1'])
  story.when(at(times.dryOut), () => dry.takeOut(ids))
  story.when(minutesAfter(at(times.last), -5), () => hand.confirm(ids, 'cool-after', 'end'))
}

/** Into an oven and out of it: as a load where there is one, else confirmed at the bench. */
function moverOf(hand: BenchHand, load: CheckedLoad | undefined, step: string, oven: string) {
  if (!load)
    return {
      putIn: (ids: readonly string[]) => hand.confirm(ids, step, 'start', oven),
      takeOut: (ids: readonly string[]) => hand.confirm(ids, step, 'end'),
    }
  return {
    putIn: async (ids: readonly string[]) => {
      // Opened with the first that go in, and the same load from then on.
      await load.hand.open(oven)
      await load.hand.putIn(ids, step)
    },
    takeOut: (ids: readonly string[]) => load.hand.takeOut(ids, step),
  }
}

/** The temperature, and the check specimens weighed warm against warm. */
function tellChecks(
  story: Story,
  at: (moment: Moment) => Date,
  load: CheckedLoad,
  discs: readonly Specimen[],
  balance: string,
): void {
  const [readAt, temperature] = load.temperature
  story.when(at(readAt), () => load.hand.readTemperature(temperature))
  for (const [label, masses] of Object.entries(load.checks)) {
    const { testId } = discs.find((disc) => disc.label === label)!
    masses.forEach((typed, index) => story.when(at(load.at[index]!), () => load.hand.weighWarm(testId, typed, balance)))
  }
}

export type StripTimes = {
  cast: Moment
  oven: Moment
  out: Moment
  mount: Moment
  dry: Moment
  dryOut: Moment
  weigh: Moment
  sand: Moment
  /** Lost on the wheel, so many minutes after it started, by label. */
  lost?: Readonly<Record<string, { readonly minutes: number; readonly reason: string }>>
  /** Tacky from a cycle on, and water sprayed, by label. */
  tacky?: Readonly<Record<string, string>>
}

/** Strips in numbered plates, from their batches over the wheel to the weighing after the sand. */
export function tellStrips(
  story: Story,
  { calendar, instruments, contents }: Scene,
  hand: BenchHand,
  strips: readonly Specimen[],
  times: StripTimes,
): void {
  const at = ([day, time]: Moment) => calendar.at(day, time)
  const all = strips.map(({ testId }) => testId)
  const kept = strips.filter(({ label }) => times.lost?.[label] === undefined)
  const keptIds = kept.map(({ testId }) => testId)
  strips.forEach((strip, index) => {
    const start = minutesAfter(at(times.cast), 8 * index)
    tellBatch(story, hand, strip, start, instruments['BAL-2'], instruments['BAL-2'], 300, contents)
    const plate = strip.row.plate
    if (plate) story.when(start, () => hand.read(strip.testId, 'cast', 'plate-tare', plate, instruments['BAL-2']))
  })
  story.when(at(times.oven), () => hand.confirm(all, 'cure', 'start', instruments['OV-2']))
  story.when(at(times.out), () => hand.confirm(all, 'cure', 'end'))
  story.when(minutesAfter(at(times.out), 60), () => hand.confirm(all, 'cool', 'end'))
  strips.forEach(({ testId, label }, index) => {
    const mounted = minutesAfter(at(times.mount), 29 * index)
    story.when(mounted, () => hand.confirm([testId], 'condition', 'start', instruments['LW-1']))
    const lost = times.lost?.[label]
    if (lost) {
      story.when(minutesAfter(mounted, lost.minutes), () => hand.lose(testId, lost.reason))
      return
    }
    const tacky = times.tacky?.[label]
    if (tacky)
      story.when(minutesAfter(mounted, 15), async () => {
        await hand.read(testId, 'condition', 'tacky-from-cycle', tacky)
        await hand.read(testId, 'condition', 'water-sprayed', 'yes')
      })
    // 1000 cycles at 44 a minute are 22 min 44 s.
    story.when(minutesAfter(mounted, 22.7333), () => hand.confirm([testId], 'condition', 'end'))
  })
  kept.forEach(({ testId, row }, index) => {
    const sanded = minutesAfter(at(times.sand), 11 * index)
    story.when(minutesAfter(at(times.weigh), 1.7 * index), () =>
      hand.read(testId, 'weigh-before', 'mass', row.w1!, instruments['BAL-2']),
    )
    story.when(sanded, async () => {
      await hand.confirm([testId], 'sand', 'start', instruments['LW-1'])
      await hand.read(testId, 'sand', 'sand-temperature', ['82', '81', '83'][index % 3]!)
    })
    story.when(minutesAfter(sanded, 6), () => hand.read(testId, 'weigh-after', 'mass', row.w2!, instruments['BAL-2']))
  })
  story.when(at(times.dry), () => hand.confirm(keptIds, 'dry', 'start', instruments['OV-2']))
  story.when(at(times.dryOut), () => hand.confirm(keptIds, 'dry', 'end'))
  story.when(minutesAfter(at(times.weigh), -5), () => hand.confirm(keptIds, 'cool-after', 'end'))
}

/** A batch weighed and stirred, and its specimen cast at once. */
function tellBatch(
  story: Story,
  hand: BenchHand,
  { batchTestId, testId, row, emulsionPercent }: Specimen,
  at: Date,
  balance: string,
  fineBalance: string,
  aggregateG: number,
  contents: Scene['contents'],
): void {
  const content = contents.find((candidate) => Number(candidate.emulsionPercent) === Number(emulsionPercent))!
  tellWeighing(story, hand, { batchTestId, row, at, balance, fineBalance, aggregateG, content })
  story.when(minutesAfter(at, 6), () => hand.confirm([testId], 'cast', 'start'))
}

type Weighing = {
  readonly batchTestId: string
  /** Aggregate and emulsion as the balance showed them, g. */
  readonly row: Pick<WeighedRow, 'aggregate' | 'emulsion'>
  readonly at: Date
  readonly balance: string
  readonly fineBalance: string
  /** Dry aggregate that the shares are taken of, g. */
  readonly aggregateG: number
  readonly content: Scene['contents'][number]
}

/** Bag, filler and additive to the tenth, water, emulsion last; five minutes later the emulsion goes in. */
export function tellWeighing(
  story: Story,
  hand: BenchHand,
  { batchTestId, row, at, balance, fineBalance, aggregateG, content }: Weighing,
): void {
  const share = (percent: string, decimals: number) => ((Number(percent) * aggregateG) / 100).toFixed(decimals)
  const poured = [
    ['aggregate', row.aggregate, balance],
    ['filler', share(content.fillerPercent, 1), fineBalance],
    ['additive', share(content.additivePercent, 1), fineBalance],
    ['water', share(content.waterPercent, 1), balance],
    ['emulsion', row.emulsion, balance],
  ] as const
  poured.forEach(([component, typed, instrument], index) =>
    story.when(minutesAfter(at, index), () => hand.read(batchTestId, 'weigh-components', component, typed, instrument)),
  )
  story.when(minutesAfter(at, 5), () => hand.confirm([batchTestId], 'mix', 'start'))
}

import type { SpecimenRow } from '@curebook/contract/designs'
import design from '@curebook/trade/reference-cases/marrowdale-design.json' with { type: 'json' }
import type { ControlledClock } from '#platform/clock'
import type { Services } from '../services.ts'
import { benchHand, type BenchHand } from './demo-bench.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import type { DemoPeople } from './demo-laboratory.ts'
import { createStory, minutesAfter, type Story } from './demo-story.ts'

type Row = (typeof design.rows)[number]
type Specimen = SpecimenRow & { readonly row: Row }
export type Cast = {
  services: Services
  clock: ControlledClock
  calendar: DemoCalendar
  people: DemoPeople
  instruments: DemoInstruments
}

/** Order of casting by blocks, so that the day's drift does not look like an effect of the binder. */
const castOrder = [
  '10-1',
  '12-1',
  '14-1',
  '11-1',
  '13-1',
  '13-2',
  '11-2',
  '14-2',
  '12-2',
  '10-2',
  '12-3',
  '10-3',
  '13-3',
  '14-3',
  '11-3',
]

/** The bench part of the clean design, day 3 to day 12: every number goes in as it was weighed. All invented. */
export async function playMarrowdaleBench(cast: Cast, specimens: readonly SpecimenRow[]): Promise<void> {
  const { services, clock, people } = cast
  const story = createStory(clock)
  const hands = {
    ada: benchHand(services, clock, people.technician),
    bram: benchHand(services, clock, people.technician2),
  }
  const own = (methodKey: string, soak: string | null, form: string) =>
    specimens
      .filter((specimen) => specimen.methodKey === methodKey)
      .flatMap((specimen): Specimen[] => {
        const row = design.rows.find(
          (candidate) => candidate.form === form && candidate.soak === soak && candidate.label === specimen.label,
        )
        return row ? [{ ...specimen, row }] : []
      })
  const inOrder = (found: Specimen[]) =>
    [...found].sort((a, b) => castOrder.indexOf(a.label) - castOrder.indexOf(b.label))
  tellDiscs(story, cast, hands.ada, inOrder(own(design.methods['1-hour'], '1-hour', 'disc')), {
    cast: [3, '09:00'],
    ovens: ['10:45', '12:05'],
    out: [4, '08:35'],
    weigh: [4, '09:40'],
    soak: [4, '10:20'],
    soakMinutes: 62,
    dryOut: [5, '08:00'],
    last: [5, '09:00'],
  })
  tellDiscs(story, cast, hands.bram, inOrder(own(design.methods['6-day'], '6-day', 'disc')), {
    cast: [4, '12:45'],
    ovens: ['14:10', '15:25'],
    out: [5, '08:05'],
    weigh: [5, '09:25'],
    soak: [5, '10:30'],
    soakMinutes: 6 * 24 * 60 + 5,
    dryOut: [12, '09:00'],
    last: [12, '10:05'],
  })
  tellStrips(story, cast, hands.ada, own(design.methods.strip, null, 'strip'))
  await story.play()
}

type Moment = readonly [day: number, time: string]
type DiscTimes = {
  cast: Moment
  ovens: readonly [string, string]
  out: Moment
  weigh: Moment
  soak: Moment
  soakMinutes: number
  dryOut: Moment
  last: Moment
}

function tellDiscs(
  story: Story,
  { calendar, instruments }: Cast,
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
    ),
  )
  const [first, second] = [all.slice(0, 8), all.slice(8)]
  story.when(calendar.at(times.cast[0], times.ovens[0]), () =>
    hand.confirm(first, 'cure', 'start', instruments['OV-1']),
  )
  story.when(calendar.at(times.cast[0], times.ovens[1]), () =>
    hand.confirm(second, 'cure', 'start', instruments['OV-1']),
  )
  story.when(at(times.out), () => hand.confirm(all, 'cure', 'end'))
  story.when(minutesAfter(at(times.out), 60), () => hand.confirm(all, 'cool', 'end'))
  discs.forEach(({ testId, row }, index) => {
    const soaked = minutesAfter(at(times.soak), 15 * index)
    const started = minutesAfter(soaked, times.soakMinutes)
    story.when(minutesAfter(at(times.weigh), 1.5 * index), () =>
      hand.read(testId, 'weigh-before', 'mass', row.w1, instruments['BAL-1']),
    )
    story.when(soaked, () => hand.confirm([testId], 'soak', 'start', instruments['BATH-1']))
    story.when(started, () => hand.confirm([testId], 'abrade', 'start', instruments['WTA-1']))
    story.when(minutesAfter(started, 12), () => hand.confirm([testId], 'dry-back', 'start', instruments['OV-2']))
    story.when(minutesAfter(at(times.last), 1.3 * index), () =>
      hand.read(testId, 'weigh-after', 'mass', row.w2, instruments['BAL-1']),
    )
  })
  story.when(at(times.dryOut), () => hand.confirm(all, 'dry-back', 'end'))
  story.when(minutesAfter(at(times.last), -5), () => hand.confirm(all, 'cool-after', 'end'))
}

function tellStrips(story: Story, { calendar, instruments }: Cast, hand: BenchHand, strips: readonly Specimen[]): void {
  const all = strips.map(({ testId }) => testId)
  strips.forEach((strip, index) =>
    tellBatch(
      story,
      hand,
      strip,
      minutesAfter(calendar.at(8, '13:20'), 8 * index),
      instruments['BAL-2'],
      instruments['BAL-2'],
      300,
    ),
  )
  story.when(calendar.at(8, '15:45'), () => hand.confirm(all, 'cure', 'start', instruments['OV-2']))
  story.when(calendar.at(9, '07:30'), () => hand.confirm(all, 'cure', 'end'))
  story.when(calendar.at(9, '08:30'), () => hand.confirm(all, 'cool', 'end'))
  strips.forEach(({ testId, row }, index) => {
    const mounted = minutesAfter(calendar.at(9, '08:35'), 29 * index)
    const sanded = minutesAfter(calendar.at(10, '09:40'), 11 * index)
    // 1000 cycles at 44 a minute are 22 min 44 s.
    story.when(mounted, () => hand.confirm([testId], 'condition', 'start', instruments['LW-1']))
    story.when(minutesAfter(mounted, 22.7333), () => hand.confirm([testId], 'condition', 'end'))
    story.when(minutesAfter(calendar.at(10, '09:00'), 1.7 * index), () =>
      hand.read(testId, 'weigh-before', 'mass', row.w1, instruments['BAL-2']),
    )
    story.when(sanded, () => hand.confirm([testId], 'sand', 'start', instruments['LW-1']))
    story.when(minutesAfter(sanded, 6), () => hand.read(testId, 'weigh-after', 'mass', row.w2, instruments['BAL-2']))
  })
  story.when(calendar.at(9, '16:05'), () => hand.confirm(all, 'dry', 'start', instruments['OV-2']))
  story.when(calendar.at(10, '08:00'), () => hand.confirm(all, 'dry', 'end'))
  story.when(calendar.at(10, '08:55'), () => hand.confirm(all, 'cool-after', 'end'))
}

/** Bag, filler and additive to the hundredth, water, emulsion last; then stirred and cast at once. */
function tellBatch(
  story: Story,
  hand: BenchHand,
  { batchTestId, testId, row, emulsionPercent }: Specimen,
  at: Date,
  balance: string,
  fineBalance: string,
  aggregateG: number,
): void {
  const content = design.contents.find((candidate) => Number(candidate.emulsionPercent) === Number(emulsionPercent))!
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
  story.when(minutesAfter(at, 6), () => hand.confirm([testId], 'cast', 'start'))
}

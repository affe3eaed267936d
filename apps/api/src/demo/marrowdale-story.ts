import type { SpecimenRow } from '@curebook/contract/designs'
import design from '@curebook/trade/reference-cases/marrowdale-design.json' with { type: 'json' }
import type { ControlledClock } from '#platform/clock'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import { benchHand, type BenchHand } from './demo-bench.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import type { DemoPeople } from './demo-laboratory.ts'
import { createStory, minutesAfter, type Story } from './demo-story.ts'
import { slips, weighedRow, type WeighedRow } from './marrowdale-accidents.ts'

type Specimen = SpecimenRow & { readonly row: WeighedRow }
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
  // Spares last.
  '10-4',
  '12-4',
]

/**
 * The bench part of the design, day 3 to day 12, with what went wrong: a torn felt and its spare, a soak too long, digits
 * transposed, an over-poured mix, a cracked and a tacky strip. Every number goes in as it was weighed. All invented.
 */
export async function playMarrowdaleBench(cast: Cast, specimens: readonly SpecimenRow[]): Promise<void> {
  const { services, clock, people, calendar } = cast
  const story = createStory(clock)
  const hands = {
    ada: benchHand(services, clock, people.technician),
    bram: benchHand(services, clock, people.technician2),
  }
  const own = (methodKey: string) =>
    specimens
      .filter((specimen) => specimen.methodKey === methodKey)
      .flatMap((specimen): Specimen[] => {
        const row = weighedRow(specimen)
        return row ? [{ ...specimen, row }] : []
      })
  const inOrder = (found: Specimen[]) =>
    [...found].sort((a, b) => castOrder.indexOf(a.label) - castOrder.indexOf(b.label))
  const discs = inOrder(own(design.methods['1-hour']))
  const [torn, spare, late, unused] = ['10-2', '10-4', '11-3', '12-4'].map((label) =>
    discs.find((disc) => disc.label === label)!,
  ) as [Specimen, Specimen, Specimen, Specimen]
  tellDiscs(story, cast, hands.ada, discs, {
    cast: [3, '09:00'],
    ovens: ['10:45', '12:05'],
    out: [4, '08:35'],
    weigh: [4, '09:40'],
    soak: [4, '10:20'],
    soakMinutes: ({ label }) => ({ '11-3': 79, '10-4': 64 })[label] ?? 62,
    soakedAt: { '10-4': [4, '14:20'] },
    dryOut: [5, '08:00'],
    last: [5, '09:00'],
    lost: [torn, unused],
  })
  story.when(calendar.at(4, '12:35'), () =>
    hands.ada.confirm([torn.testId], 'soak', 'start', cast.instruments['BATH-1']),
  )
  story.when(calendar.at(4, '13:37'), () =>
    hands.ada.confirm([torn.testId], 'abrade', 'start', cast.instruments['WTA-1']),
  )
  story.when(minutesAfter(calendar.at(4, '13:37'), 0.7), () =>
    hands.ada.lose(torn.testId, 'Felt tore at the clamp; stopped at 40 s'),
  )
  story.when(calendar.at(4, '14:15'), () =>
    services.bench.ending.replace(people.manager, torn.testId, {
      spareTestId: spare.testId,
      reason: 'Spare of the same content, cast the same morning',
    }),
  )
  story.when(calendar.at(4, '15:40'), () => acceptWindow(cast, late.testId))
  story.when(calendar.at(5, '16:00'), () => hands.ada.lose(unused.testId, 'Spare, not needed: no other disc was lost'))
  tellDiscs(story, cast, hands.bram, inOrder(own(design.methods['6-day'])), {
    cast: [4, '12:45'],
    ovens: ['14:10', '15:25'],
    out: [5, '08:05'],
    weigh: [5, '09:25'],
    soak: [5, '10:30'],
    soakMinutes: () => 6 * 24 * 60 + 5,
    soakedAt: {},
    dryOut: [12, '09:00'],
    last: [12, '10:05'],
    lost: [],
    seen: { '10-2': 'Edge lifted in the bath' },
  })
  tellStrips(story, cast, hands.ada, own(design.methods.strip))
  await story.play()
}

/** The manager accepts the disc whose run began four minutes late. */
async function acceptWindow({ services, people }: Cast, testId: string): Promise<void> {
  const { items } = await services.deviations.list(people.manager, { open: true, designId: null })
  const deviation = items.find((item) => item.testId === testId && item.kind === 'window')
  if (!deviation) throw new Error('The story has a fault: the late run opened no deviation')
  await services.deviations.decide(people.manager, deviation.id, {
    id: newId(),
    kind: 'accept',
    reason: 'A longer soak can only raise the loss; it counts.',
    spareTestId: null,
  })
}

type Moment = readonly [day: number, time: string]
type DiscTimes = {
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
  /** What was seen after the run, by label. */
  seen?: Readonly<Record<string, string>>
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
  const kept = discs.filter((disc) => !times.lost.includes(disc))
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
    story.when(minutesAfter(started, 12), () => hand.confirm([testId], 'dry-back', 'start', instruments['OV-2']))
  })
  kept.forEach(({ testId, row, methodKey, label }, index) => {
    const weighed = minutesAfter(at(times.last), 1.3 * index)
    const slip = slips[`${methodKey} ${label}`]
    story.when(weighed, () => hand.read(testId, 'weigh-after', 'mass', slip?.typed ?? row.w2!, instruments['BAL-1']))
    if (slip) story.when(minutesAfter(weighed, 1), () => hand.correct(testId, 'weigh-after', row.w2!, slip.reason))
  })
  const ids = kept.map(({ testId }) => testId)
  story.when(at(times.dryOut), () => hand.confirm(ids, 'dry-back', 'end'))
  story.when(minutesAfter(at(times.last), -5), () => hand.confirm(ids, 'cool-after', 'end'))
}

/** Strips in numbered plates; the plate of 12-1 was bent, and its strip cracked on the wheel. */
function tellStrips(story: Story, { calendar, instruments }: Cast, hand: BenchHand, strips: readonly Specimen[]): void {
  const all = strips.map(({ testId }) => testId)
  const kept = strips.filter(({ row }) => row.w2 !== undefined)
  const keptIds = kept.map(({ testId }) => testId)
  strips.forEach((strip, index) => {
    const start = minutesAfter(calendar.at(8, '13:20'), 8 * index)
    tellBatch(story, hand, strip, start, instruments['BAL-2'], instruments['BAL-2'], 300)
    const plate = strip.row.plate
    if (plate) story.when(start, () => hand.read(strip.testId, 'cast', 'plate-tare', plate, instruments['BAL-2']))
  })
  story.when(calendar.at(8, '15:45'), () => hand.confirm(all, 'cure', 'start', instruments['OV-2']))
  story.when(calendar.at(9, '07:30'), () => hand.confirm(all, 'cure', 'end'))
  story.when(calendar.at(9, '08:30'), () => hand.confirm(all, 'cool', 'end'))
  strips.forEach(({ testId, row, label }, index) => {
    const mounted = minutesAfter(calendar.at(9, '08:35'), 29 * index)
    story.when(mounted, () => hand.confirm([testId], 'condition', 'start', instruments['LW-1']))
    if (row.w2 === undefined) {
      // 310 cycles at 44 a minute.
      story.when(minutesAfter(mounted, 7), () => hand.lose(testId, 'Plate bent, strip cracked; stopped at 310 cycles'))
      return
    }
    if (label === '14-2')
      story.when(minutesAfter(mounted, 15), async () => {
        await hand.read(testId, 'condition', 'tacky-from-cycle', '640')
        await hand.read(testId, 'condition', 'water-sprayed', 'yes')
      })
    // 1000 cycles at 44 a minute are 22 min 44 s.
    story.when(minutesAfter(mounted, 22.7333), () => hand.confirm([testId], 'condition', 'end'))
  })
  kept.forEach(({ testId, row }, index) => {
    const sanded = minutesAfter(calendar.at(10, '09:40'), 11 * index)
    story.when(minutesAfter(calendar.at(10, '09:00'), 1.7 * index), () =>
      hand.read(testId, 'weigh-before', 'mass', row.w1!, instruments['BAL-2']),
    )
    story.when(sanded, async () => {
      await hand.confirm([testId], 'sand', 'start', instruments['LW-1'])
      await hand.read(testId, 'sand', 'sand-temperature', ['82', '81', '83'][index % 3]!)
    })
    story.when(minutesAfter(sanded, 6), () => hand.read(testId, 'weigh-after', 'mass', row.w2!, instruments['BAL-2']))
  })
  story.when(calendar.at(9, '16:05'), () => hand.confirm(keptIds, 'dry', 'start', instruments['OV-2']))
  story.when(calendar.at(10, '08:00'), () => hand.confirm(keptIds, 'dry', 'end'))
  story.when(calendar.at(10, '08:55'), () => hand.confirm(keptIds, 'cool-after', 'end'))
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

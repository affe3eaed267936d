import type { PlanSeries, SpecimenRow } from '@curebook/contract/designs'
import { newId } from '#platform/uuid'
import { tellWeighing } from './bench-story.ts'
import { benchHand, type BenchHand } from './demo-bench.ts'
import { createStory, minutesAfter, type Story } from './demo-story.ts'
import type { Cast } from './marrowdale-story.ts'
import { cups, rings, thickStrips, type StepReadings } from './panel-readings.ts'

/** The content at which the panel is tested. */
const tested = '12'

const asked = {
  'trial-mix': { replicates: cups['trial-mix'].length, aggregateG: 100 },
  'trial-mix-at-temperature': { replicates: cups['trial-mix-at-temperature'].length, aggregateG: 100 },
  cohesion: { replicates: rings.length, aggregateG: 400 },
  'wet-stripping': { replicates: 1, aggregateG: 100 },
  'loaded-wheel-displacement': { replicates: thickStrips.length, aggregateG: 500 },
} as const
type Asked = keyof typeof asked

/** Readings of one step, a minute's work; a list goes to the repeats of its reading. */
export async function readAll(
  hand: BenchHand,
  testId: string,
  step: string,
  readings: StepReadings,
  instrument: string | null = null,
): Promise<void> {
  for (const [key, typed] of Object.entries(readings))
    for (const [index, one] of [typed].flat().entries()) await hand.read(testId, step, key, one, instrument, index + 1)
}

/**
 * What is tested beside the series once its last weighing stands: cups over temperature, two sets of rings, stripping, and
 * two thick strips under the wheel; all at one content and by one technician. All numbers are invented.
 */
export async function tellPanelTests(cast: Cast, designId: string, contents: PlanSeries['contents']): Promise<void> {
  const { services, clock, calendar, people, instruments } = cast
  const content = contents.find(({ emulsionPercent }) => emulsionPercent === tested)!
  clock.set(calendar.at(15, '08:30').toISOString())
  const methods = Object.entries(asked).map(([methodKey, { replicates }]) => ({ methodKey, replicates, spares: [] }))
  const { items } = await services.designs.plan(people.engineer, designId, { contents: [content], methods }, newId())
  const own = items.filter(({ methodKey }) => methodKey in asked)
  await services.schedule.assign(
    people.manager,
    { testIds: own.map(({ testId }) => testId), to: people.technician2.membershipId },
    newId(),
  )
  const story = createStory(clock)
  const hand = benchHand(services, clock, people.technician2)
  const scene: Scene = { story, hand, cast, content }
  const of = (method: Asked) => own.filter(({ methodKey }) => methodKey === method)

  of('wet-stripping').forEach((one) => tellStripping(scene, one))
  of('loaded-wheel-displacement').forEach((one, index) => tellThickStrip(scene, one, index))
  of('cohesion').forEach((one, index) => tellRings(scene, one, index))
  of('trial-mix').forEach((one, index) => tellCup(scene, one, cups['trial-mix'][index]!, index))
  of('trial-mix-at-temperature').forEach((one, index) =>
    tellCup(scene, one, cups['trial-mix-at-temperature'][index]!, cups['trial-mix'].length + index),
  )
  const strips = of('loaded-wheel-displacement').map(({ testId }) => testId)
  const stripped = of('wet-stripping').map(({ testId }) => testId)
  story.when(calendar.at(15, '12:00'), () => hand.confirm(stripped, 'cure', 'start', instruments['OV-1']))
  story.when(calendar.at(15, '12:05'), () => hand.confirm(strips, 'cure', 'start', instruments['OV-2']))
  story.when(calendar.at(16, '08:00'), () => hand.confirm(strips, 'cure', 'end'))
  story.when(calendar.at(16, '09:00'), () => hand.confirm(strips, 'cool', 'end'))
  story.when(calendar.at(16, '12:30'), () => hand.confirm(stripped, 'cure', 'end'))
  await story.play()
}

type Scene = {
  readonly story: Story
  readonly hand: BenchHand
  readonly cast: Cast
  readonly content: PlanSeries['contents'][number]
}

/** The batch of one specimen, its emulsion over by what a pour is over. @returns when the emulsion went in */
function tellOwnBatch(
  { story, hand, cast: { instruments }, content }: Scene,
  { batchTestId, methodKey }: SpecimenRow,
  at: Date,
): Date {
  const { aggregateG } = asked[methodKey as Asked]
  const emulsion = ((Number(content.emulsionPercent) * aggregateG) / 100 + aggregateG / 1000).toFixed(1)
  const balances = { balance: instruments['BAL-1'], fineBalance: instruments['BAL-2'] }
  const row = { aggregate: aggregateG.toFixed(1), emulsion }
  tellWeighing(story, hand, { batchTestId, row, at, aggregateG, content, ...balances })
  return minutesAfter(at, 5)
}

type Cup = (typeof cups)[keyof typeof cups][number]

function tellCup(scene: Scene, specimen: SpecimenRow, [temperature, seconds, clear, broke]: Cup, index: number): void {
  const { story, hand, cast } = scene
  const { testId } = specimen
  const poured = tellOwnBatch(scene, specimen, minutesAfter(cast.calendar.at(15, '09:00'), 25 * index))
  story.when(poured, () => hand.confirm([testId], 'stir', 'start'))
  story.when(minutesAfter(poured, 4), () =>
    readAll(hand, testId, 'stir', { temperature, consistency: 'creamy', 'mix-time': seconds, break: broke }),
  )
  story.when(minutesAfter(poured, 5), () => readAll(hand, testId, 'look', { coated: '100', water: 'clear' }))
  story.when(minutesAfter(poured, Number(clear)), () => readAll(hand, testId, 'blot', { 'clear-water': clear }))
}

function tellRings(scene: Scene, specimen: SpecimenRow, index: number): void {
  const { story, hand, cast } = scene
  const { testId } = specimen
  const tester = cast.instruments['COH-1']
  const begun = cast.calendar.at(16, index === 0 ? '09:10' : '13:40')
  story.when(minutesAfter(begun, -8), () =>
    readAll(hand, testId, 'check', { 'room-temperature': '24.6', humidity: '48', 'foot-pressure': '199.2' }),
  )
  const poured = tellOwnBatch(scene, specimen, begun)
  story.when(minutesAfter(poured, 1), () => hand.confirm([testId], 'cast', 'start'))
  for (const [planned, minute, torque, broke] of rings[index]!)
    story.when(minutesAfter(poured, Number(minute) + 1.2), async () => {
      await hand.read(testId, `twist-${planned}`, 'minute', minute)
      await hand.read(testId, `twist-${planned}`, 'torque', torque, tester)
      await hand.read(testId, `twist-${planned}`, 'break', broke)
    })
}

function tellStripping(scene: Scene, specimen: SpecimenRow): void {
  const { story, hand, cast } = scene
  const { testId } = specimen
  const poured = tellOwnBatch(scene, specimen, cast.calendar.at(15, '11:10'))
  const boiling = cast.calendar.at(16, '13:25')
  story.when(minutesAfter(poured, 1), () => hand.confirm([testId], 'spread', 'start'))
  story.when(minutesAfter(boiling, -5), () =>
    hand.read(testId, 'weigh-sample', 'mass', '10.2', cast.instruments['BAL-2']),
  )
  story.when(boiling, () => hand.confirm([testId], 'boil', 'start'))
  story.when(minutesAfter(boiling, 3), () => hand.confirm([testId], 'boil', 'end'))
  story.when(cast.calendar.at(16, '16:20'), () =>
    readAll(hand, testId, 'look', { coated: '95', 'coated-second': '95', observation: 'Edges of coarse stones bare' }),
  )
}

function tellThickStrip(scene: Scene, specimen: SpecimenRow, index: number): void {
  const { story, hand, cast } = scene
  const { calendar, instruments } = cast
  const { testId } = specimen
  const { before, after, weighed } = thickStrips[index]!
  const poured = tellOwnBatch(scene, specimen, minutesAfter(calendar.at(15, '11:25'), 8 * index))
  const mounted = minutesAfter(calendar.at(16, '09:25'), 45 * index)
  story.when(minutesAfter(poured, 1), () => hand.confirm([testId], 'cast', 'start'))
  story.when(minutesAfter(mounted, -6), () => readAll(hand, testId, 'measure-before', before))
  story.when(mounted, () => hand.confirm([testId], 'condition', 'start', instruments['LW-1']))
  // 1000 cycles at 44 a minute are 22 min 44 s.
  story.when(minutesAfter(mounted, 22.7333), () => hand.confirm([testId], 'condition', 'end'))
  story.when(minutesAfter(mounted, 27), () => readAll(hand, testId, 'measure-after', after))
  const { 'weighed-as': weighedAs, ...masses } = weighed
  story.when(minutesAfter(calendar.at(16, '11:20'), 6 * index), async () => {
    await readAll(hand, testId, 'weigh-in-water', { 'weighed-as': weighedAs! })
    await readAll(hand, testId, 'weigh-in-water', masses, instruments['BAL-2'])
  })
}

import type { Design, SpecimenRow } from '@curebook/contract/designs'
import type { Recommend, Recommendation } from '@curebook/contract/recommendations'
import type { Review } from '@curebook/contract/review'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import { testPassword } from './account.ts'
import { aReading, confirm } from './bench.ts'
import { makePlannedDesign } from './design.ts'
import { makeFactor, makeInstrument } from './instrument.ts'
import type { PersonKey, TestLaboratory } from './laboratory.ts'

/** What each specimen weighs before and after, g, by method and emulsion content. Losses fall, gains rise with binder. */
export type Weighings = Readonly<Record<string, Readonly<Record<string, readonly (readonly [string, string])[]>>>>

/** Abrasion crosses 538 g/m² between 10 and 12 % emulsion, adhesion between 12 and 14 %. */
export const usualWeighings: Weighings = {
  'wet-track-abrasion-1h': {
    '10': [
      ['760.0', '740.0'],
      ['761.0', '741.4'],
    ],
    '12': [
      ['762.0', '750.0'],
      ['763.0', '751.4'],
    ],
    '14': [
      ['764.0', '757.0'],
      ['765.0', '758.4'],
    ],
  },
  'loaded-wheel-sand-adhesion': {
    '10': [['450.00', '453.05']],
    '12': [['452.00', '457.55']],
    '14': [['454.00', '463.55']],
  },
}

/** The least that can be reviewed: one disc at 12 % emulsion. */
export const oneDisc: Weighings = { 'wet-track-abrasion-1h': { '12': [['762.0', '750.0']] } }

/** Hours that pass before the start and before the end of a step, so that every window is met. */
const hoursBefore: Readonly<Record<string, number>> = {
  'cure start': 1,
  'cure end': 20,
  'cool end': 1,
  'abrade start': 62 / 60,
  'dry-back end': 17,
  'dry end': 16,
  'cool-after end': 1,
}

export type TestedDesign = { design: Design; specimens: SpecimenRow[]; machineId: string; wheelId: string }

/**
 * A design of three contents (10, 12 and 14 % emulsion), two discs and a strip each, weighed to the end as
 * `weighings` say and inside every window. Work is the technician's. `skip` = specimens not begun.
 */
export async function makeTestedDesign(
  testApp: TestApp,
  lab: TestLaboratory,
  {
    weighings = usualWeighings,
    spares = [],
    skip = () => false,
    soakMinutes = () => 62,
    hours = {},
    machines = '1',
  }: {
    weighings?: Weighings
    spares?: { emulsionPercent: string; count: number }[]
    skip?: (specimen: SpecimenRow) => boolean
    soakMinutes?: (specimen: SpecimenRow) => number
    /** Hours before an act that are other than usual: `{ 'dry-back end': 26 }`. */
    hours?: Readonly<Record<string, number>>
    /** What the machines' codes end in: another for a second design of a laboratory. */
    machines?: string
  } = {},
): Promise<TestedDesign> {
  const machineId = (await makeInstrument(testApp, lab, { code: `WTA-${machines}` })).id
  await makeFactor(testApp, lab, machineId)
  const wheel = { code: `LW-${machines}`, kind: 'loaded-wheel', name: 'Loaded wheel' } as const
  const wheelId = (await makeInstrument(testApp, lab, wheel)).id
  await makeFactor(testApp, lab, wheelId, {
    key: 'frame',
    typed: '73.8',
    measuredAreaCm2: '135.5',
    edition: 'ISSA TB-109 (2018)',
  })
  const contents = Object.keys(Object.values(weighings)[0]!)
  const planned = await makePlannedDesign(testApp, lab, {
    contents: contents.map((emulsionPercent) => ({
      emulsionPercent,
      waterPercent: '10',
      fillerPercent: '1',
      additivePercent: '0.2',
    })),
    methods: Object.entries(weighings).map(([methodKey, byContent]) => ({
      methodKey,
      replicates: Math.max(...Object.values(byContent).map((rows) => rows.length)),
      spares: methodKey === 'wet-track-abrasion-1h' ? spares : [],
    })),
  })
  const worked = planned.specimens.filter((specimen) => specimen.purpose === 'series' && !skip(specimen))
  await weighBatches(testApp, lab, worked)
  for (const methodKey of Object.keys(weighings)) {
    const own = worked.filter((specimen) => specimen.methodKey === methodKey)
    const late = new Set(own.map(soakMinutes))
    for (const minutes of late)
      await runToTheEnd(
        testApp,
        lab,
        own.filter((specimen) => soakMinutes(specimen) === minutes),
        {
          instrumentId: methodKey === 'loaded-wheel-sand-adhesion' ? wheelId : machineId,
          hours: { ...hoursBefore, ...hours, 'abrade start': minutes / 60 },
          weighed: ({ emulsionPercent, replicate }) => weighings[methodKey]![emulsionPercent!]![replicate - 1]!,
        },
      )
  }
  return { ...planned, machineId, wheelId }
}

/** Weighs the batch of each specimen on target, 800 g of dry aggregate, and puts the emulsion in. */
export async function weighBatches(
  testApp: TestApp,
  lab: TestLaboratory,
  specimens: readonly SpecimenRow[],
): Promise<void> {
  const technician = lab.people.technician.actor
  await Promise.all(
    specimens.map(async ({ batchTestId, emulsionPercent }) => {
      const grams = {
        aggregate: '800.0',
        filler: '8.0',
        additive: '1.6',
        water: '80.0',
        emulsion: (8 * Number(emulsionPercent)).toFixed(1),
      }
      for (const [component, typed] of Object.entries(grams))
        await testApp.services.bench.readings.post(
          technician,
          batchTestId,
          aReading(testApp, 'weigh-components', component, typed),
        )
    }),
  )
  await confirm(
    testApp,
    lab,
    specimens.map(({ batchTestId }) => batchTestId),
    'mix',
    'start',
  )
}

type Run = {
  instrumentId: string
  hours?: Readonly<Record<string, number>>
  weighed: (specimen: SpecimenRow) => readonly [string, string]
}

/** Takes specimens of one method through every step together. */
export async function runToTheEnd(
  testApp: TestApp,
  lab: TestLaboratory,
  specimens: readonly SpecimenRow[],
  { instrumentId, hours = hoursBefore, weighed }: Run,
): Promise<void> {
  const [first] = specimens
  if (!first) return
  for (const step of methodByKey(testApp.services.methods, first.methodKey)!.steps) {
    for (const kind of step.events) {
      testApp.clock.advance({ minutes: (hours[`${step.key} ${kind}`] ?? 0) * 60 })
      const onMachine = step.equipment.some(
        (equipment) => equipment === 'wet-track-machine' || equipment === 'loaded-wheel',
      )
      const { rows } = await confirm(
        testApp,
        lab,
        specimens.map(({ testId }) => testId),
        step.key,
        kind,
        onMachine ? instrumentId : null,
      )
      const refused = rows.find(({ outcome }) => outcome === 'refused')
      if (refused) throw new Error(`${step.key} ${kind}: ${refused.sentence}`)
    }
    if (step.key === 'weigh-before' || step.key === 'weigh-after')
      await Promise.all(
        specimens.map((specimen) =>
          testApp.services.bench.readings.post(
            lab.people.technician.actor,
            specimen.testId,
            aReading(testApp, step.key, 'mass', weighed(specimen)[step.key === 'weigh-before' ? 0 : 1]),
          ),
        ),
      )
  }
}

/** What an engineer recommends: 12 % emulsion unless told otherwise. */
export function aRecommendation(changes: Partial<Recommend> = {}): Recommend {
  return {
    id: newId(),
    emulsionPercent: '12',
    toleranceResidualPercent: '0.5',
    water: { from: '8', to: '12' },
    filler: { from: '0.5', to: '1.5' },
    additive: { from: '0', to: '0.4' },
    reason: 'Both limits are met with room to either side',
    ...changes,
  }
}

export async function recommend(
  testApp: TestApp,
  lab: TestLaboratory,
  designId: string,
  changes: Partial<Recommend> = {},
): Promise<Recommendation> {
  return (
    await testApp.services.recommendations.recommend(lab.people.engineer.actor, designId, aRecommendation(changes))
  ).value
}

/** Says a word on every point that waits for one. */
export async function acknowledgeAll(testApp: TestApp, lab: TestLaboratory, designId: string): Promise<Review> {
  const engineer = lab.people.engineer.actor
  const { points } = await testApp.services.review.read(engineer, designId)
  const waiting = points.filter(({ acknowledged, blocking }) => !acknowledged && !blocking)
  const words = waiting.map(({ key }) => ({ id: newId(), pointKey: key, word: 'Seen' }))
  return testApp.services.review.acknowledgeEach(engineer, designId, words)
}

/** Signs what stands: `check` by the manager, `approve` by the engineer, unless told otherwise. */
export async function sign(
  testApp: TestApp,
  lab: TestLaboratory,
  designId: string,
  act: 'check' | 'approve',
  who: PersonKey = act === 'check' ? 'manager' : 'engineer',
): Promise<Review> {
  const { actor } = lab.people[who]
  const { digest, workDigest } = await testApp.services.review.read(actor, designId)
  return testApp.services.review[act](
    actor,
    designId,
    { id: newId(), digest: act === 'check' ? workDigest : digest, password: testPassword, statement: '' },
    '127.0.0.1',
  )
}

/** A tested design, recommended, acknowledged, checked and approved. */
export async function makeApprovedDesign(
  testApp: TestApp,
  lab: TestLaboratory,
  options: Parameters<typeof makeTestedDesign>[2] = {},
): Promise<TestedDesign & { review: Review }> {
  const tested = await makeTestedDesign(testApp, lab, options)
  await recommend(testApp, lab, tested.design.id)
  await acknowledgeAll(testApp, lab, tested.design.id)
  await sign(testApp, lab, tested.design.id, 'check')
  return { ...tested, review: await sign(testApp, lab, tested.design.id, 'approve') }
}

import { newId } from '#platform/uuid'
import { benchHand } from './demo-bench.ts'
import { type DemoMaterials, setUpDesign } from './demo-setup.ts'
import { createStory, minutesAfter } from './demo-story.ts'
import type { Cast } from './marrowdale-story.ts'

type Setup = { clientId: string; materials: DemoMaterials; reportTo: string; copiesTo: string; now: Date }

/** As weighed, in g; invented. */
const poured = [
  { aggregate: '800.1', emulsion: '96.2' },
  { aggregate: '799.9', emulsion: '95.8' },
  { aggregate: '800.0', emulsion: '96.0' },
]

/** A verification at 12 % emulsion, begun yesterday: three discs in the oven, three more and three strips still to cast. */
export async function startVerification(cast: Cast, { now, ...setup }: Setup): Promise<string> {
  const { services, clock, people, instruments, calendar } = cast
  const inOven = minutesAfter(now, -17 * 60)
  clock.set(minutesAfter(inOven, -5 * 60).toISOString())
  const designId = await setUpDesign(services, people, calendar, {
    ...setup,
    kind: 'verification',
    projectName: 'Northern network, second load',
    designName: 'Verification at 12 % emulsion',
    specificationName: 'A143 Type II values as adopted, second load',
  })
  const content = { emulsionPercent: '12', waterPercent: '10.0', fillerPercent: '1.0', additivePercent: '0.2' }
  const methods = ['wet-track-abrasion-1h', 'wet-track-abrasion-6d', 'loaded-wheel-sand-adhesion'].map((methodKey) => ({
    methodKey,
    replicates: 3,
    spares: [],
  }))
  const { items } = await services.designs.plan(people.engineer, designId, { contents: [content], methods }, newId())
  await services.schedule.assign(
    people.manager,
    { testIds: items.map(({ testId }) => testId), to: people.technician.membershipId },
    newId(),
  )
  const hand = benchHand(services, clock, people.technician)
  const story = createStory(clock)
  const discs = items.filter(({ methodKey }) => methodKey === 'wet-track-abrasion-1h')
  discs.forEach(({ batchTestId, testId }, index) => {
    const at = minutesAfter(inOven, -120 + 9 * index)
    const { aggregate, emulsion } = poured[index]!
    const grams = { aggregate, filler: '8.0', additive: '1.6', water: '80.0', emulsion }
    Object.entries(grams).forEach(([component, typed], order) =>
      story.when(minutesAfter(at, order), () =>
        hand.read(batchTestId, 'weigh-components', component, typed, instruments['BAL-1']),
      ),
    )
    story.when(minutesAfter(at, 5), () => hand.confirm([batchTestId], 'mix', 'start'))
    story.when(minutesAfter(at, 6), () => hand.confirm([testId], 'cast', 'start'))
  })
  story.when(inOven, () =>
    hand.confirm(
      discs.map(({ testId }) => testId),
      'cure',
      'start',
      instruments['OV-1'],
    ),
  )
  await story.play()
  return designId
}

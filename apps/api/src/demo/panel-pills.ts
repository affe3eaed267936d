import { newId } from '#platform/uuid'
import { benchHand } from './demo-bench.ts'
import { createStory, minutesAfter } from './demo-story.ts'
import type { Cast } from './marrowdale-story.ts'
import { pills } from './panel-readings.ts'
import { readAll } from './panel-story.ts'

/**
 * The part of a panel that is not done yet: four pills that have lain in the bath for two days of their six, and a
 * compatibility cup that is planned and waits. Numbers invented.
 */
export async function soakPills(cast: Cast, designId: string, now: Date): Promise<void> {
  const { services, clock, people, instruments } = cast
  const hoursAgo = (hours: number) => minutesAfter(now, -60 * hours)
  clock.set(hoursAgo(76).toISOString())
  const { items } = await services.designs.planMaterialTest(
    people.engineer,
    designId,
    { methodKey: 'classification-compatibility', replicates: 1 },
    newId(),
  )
  const { mixes } = await services.designs.read(people.engineer, designId)
  const mix = mixes.find(({ emulsionPercent }) => Number(emulsionPercent) === 12)!
  const { emulsionPercent, waterPercent, fillerPercent, additivePercent } = mix
  const planned = await services.designs.plan(
    people.engineer,
    designId,
    {
      contents: [{ emulsionPercent, waterPercent, fillerPercent, additivePercent }],
      methods: [{ methodKey: 'compatibility-cup', replicates: 1, spares: [] }],
    },
    newId(),
  )
  const waiting = planned.items.filter(({ methodKey }) => methodKey === 'compatibility-cup')
  await services.schedule.assign(
    people.manager,
    { testIds: [...items, ...waiting].map(({ testId }) => testId), to: people.technician2.membershipId },
    newId(),
  )
  const story = createStory(clock)
  const hand = benchHand(services, clock, people.technician2)
  for (const { testId } of items) {
    story.when(hoursAgo(74), () => readAll(hand, testId, 'weigh-components', pills.components, instruments['BAL-2']))
    story.when(hoursAgo(73.5), () => hand.confirm([testId], 'cure', 'start', instruments['OV-2']))
    story.when(hoursAgo(54), () => hand.confirm([testId], 'cure', 'end'))
    story.when(hoursAgo(53), async () => {
      await hand.confirm([testId], 'press', 'end')
      await readAll(hand, testId, 'press', pills.pressed)
    })
    story.when(hoursAgo(51), () => readAll(hand, testId, 'weigh-dry', pills.dry, instruments['BAL-2']))
    story.when(hoursAgo(50), () => hand.confirm([testId], 'soak', 'start', instruments['BATH-1']))
  }
  await story.play()
}

import type { Actor } from '#platform/actor'
import type { Clock } from '#platform/clock'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'

/** One person at the bench: what they read and confirm goes through the product's own services, at the clock's time. */
export function benchHand(services: Services, clock: Clock, actor: Actor) {
  const time = () => {
    const now = clock.now().toISOString()
    return { eventAt: now, eventFrom: 'now' as const, sentAt: now }
  }
  return {
    read: (
      testId: string,
      stepKey: string,
      key: string,
      typed: string,
      instrumentId: string | null = null,
      repeat = 1,
    ) =>
      services.bench.readings.post(actor, testId, {
        id: newId(),
        stepKey,
        key,
        repeat,
        typed,
        instrumentId,
        time: time(),
        confirmedOdd: false,
        deviceId: null,
      }),

    /** The newest reading of a slot is replaced, with the reason. */
    async correct(testId: string, stepKey: string, typed: string, reason: string) {
      const { readings } = await services.bench.view.one(actor, testId)
      const standing = readings.find((reading) => reading.stepKey === stepKey && !reading.superseded)!
      return services.bench.readings.correct(actor, standing.id, { id: newId(), typed, reason, time: time() })
    },

    lose: (testId: string, reason: string) =>
      services.bench.ending.void(actor, testId, { id: newId(), reason, time: time() }),

    /** @throws Error when one row is refused: the story has a fault */
    async confirm(
      testIds: readonly string[],
      stepKey: string,
      kind: 'start' | 'end',
      instrumentId: string | null = null,
    ) {
      const { rows } = await services.bench.stepEvents.confirm(actor, {
        stepKey,
        kind,
        rows: testIds.map((testId) => ({ id: newId(), testId })),
        instrumentId,
        time: time(),
      })
      const refused = rows.find(({ outcome }) => outcome === 'refused')
      if (refused) throw new Error(`The story has a fault: ${refused.sentence}`)
    },
  }
}
export type BenchHand = ReturnType<typeof benchHand>

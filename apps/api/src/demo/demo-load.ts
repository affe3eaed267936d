import type { TakeOut } from '@curebook/contract/loads'
import type { Actor } from '#platform/actor'
import type { Clock } from '#platform/clock'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'

/** One load of an oven, in the hands of one person, as the page of ovens moves it. */
export function loadHand(services: Services, clock: Clock, actor: Actor) {
  const id = newId()
  const time = () => {
    const now = clock.now().toISOString()
    return { eventAt: now, eventFrom: 'now' as const, sentAt: now }
  }
  const rowsOf = (testIds: readonly string[], stepKey: string): TakeOut['rows'] =>
    testIds.map((testId) => ({ id: newId(), testId, stepKey }))
  const told = (rows: readonly { sentence: string | null; outcome: string }[]) => {
    const refused = rows.find(({ outcome }) => outcome === 'refused')
    if (refused) throw new Error(`The story has a fault: ${refused.sentence}`)
  }
  const keep = (key: 'temperature' | 'warm-mass', testId: string | null, typed: string, instrumentId: string | null) =>
    services.loads.keep(actor, id, { id: newId(), key, testId, typed, instrumentId, time: time(), supersedes: null })

  return {
    open: (instrumentId: string) => services.loads.open(actor, { id, instrumentId, time: time() }),

    async putIn(testIds: readonly string[], stepKey: string) {
      const body = { rows: rowsOf(testIds, stepKey), time: time(), temperature: null }
      told((await services.loads.putIn(actor, id, body)).outcome.rows)
    },

    readTemperature: (typed: string) => keep('temperature', null, typed, null),

    weighWarm: (testId: string, typed: string, balance: string) => keep('warm-mass', testId, typed, balance),

    /** @throws Error when the load is not dry: the story has a fault */
    async takeOut(testIds: readonly string[], stepKey: string) {
      const body = { rows: rowsOf(testIds, stepKey), time: time(), temperature: null, word: '' }
      const { outcome, deviationId } = await services.loads.takeOut(actor, id, body)
      told(outcome.rows)
      if (deviationId) throw new Error('The story has a fault: the load was let out without constant mass')
    },
  }
}
export type LoadHand = ReturnType<typeof loadHand>

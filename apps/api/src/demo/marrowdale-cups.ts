import { newId } from '#platform/uuid'
import type { Cast } from './marrowdale-story.ts'

type ToldCup = readonly [
  at: string,
  emulsion: string,
  water: string,
  additive: string,
  warm: string,
  seconds: string,
  coated: string,
  clear: string,
  remark: string,
]

/** Ten cups of an afternoon, cement 1.0 %. Invented numbers. */
const cups: readonly ToldCup[] = [
  ['13:05', '12', '8', '0', '24.6', '74', '95', '11', 'stiff, broke in cup'],
  ['13:25', '12', '10', '0', '24.8', '108', '100', '13', 'short'],
  ['13:45', '12', '10', '0.2', '25.1', '172', '100', '18', 'good, creamy'],
  ['14:10', '12', '10', '0.4', '25.0', '265', '100', '34', 'brown water at 30 min'],
  ['14:35', '12', '12', '0.2', '25.0', '205', '100', '24', 'runny, fines float'],
  ['14:55', '10', '11', '0.2', '25.2', '150', '98', '17', ''],
  ['15:15', '14', '9', '0.2', '25.0', '191', '100', '20', ''],
  ['15:35', '12', '10', '0.2', '35.2', '118', '100', '9', 'below 120 s at 35 °C'],
  ['15:55', '12', '10', '0.3', '35.1', '141', '100', '11', ''],
  ['16:15', '12', '10', '0.3', '25.1', '214', '100', '23', ''],
]

/** The second day: Bram stirs cups, and the engineer takes the third as base of the series. */
export async function stirTrialMixes({ services, clock, calendar, people }: Cast, designId: string): Promise<void> {
  let base = ''
  for (const [time, emulsion, water, additive, temperature, mixTime, coated, clearWater, remark] of cups) {
    const startedAt = calendar.at(2, time)
    // Written down when the paper draws clear water.
    clock.set(new Date(startedAt.getTime() + (Number(clearWater) + 2) * 60_000).toISOString())
    const { value } = await services.trials.enter(people.technician2, designId, {
      id: newId(),
      emulsion,
      water,
      additive,
      filler: '1.0',
      temperature,
      mixTime,
      mixTimeFrom: 'stopwatch',
      coated,
      clearWater,
      startedAt: startedAt.toISOString(),
      remark,
    })
    if (value.number === 3) base = value.id
  }
  clock.set(calendar.at(2, '17:00').toISOString())
  await services.trials.useAsBase(people.engineer, designId, { id: newId(), cupId: base, contents: [] })
}

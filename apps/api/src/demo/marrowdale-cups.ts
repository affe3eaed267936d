import type { EnterTrialCup } from '@curebook/contract/trials'
import { newId } from '#platform/uuid'
import type { Cast } from './marrowdale-story.ts'

type CupLooks = Pick<EnterTrialCup, 'consistency' | 'broke'>
type ToldCup = readonly [
  at: string,
  emulsion: string,
  water: string,
  additive: string,
  warm: string,
  seconds: string,
  coated: string,
  clear: string,
  looks: readonly [consistency: CupLooks['consistency'], broke: CupLooks['broke']],
  remark: string,
]

/** Ten cups of an afternoon, cement 1.0 %. Invented numbers. */
const cups: readonly ToldCup[] = [
  ['13:05', '12', '8', '0', '24.6', '74', '95', '11', ['stiff', 'sudden'], 'in the cup already'],
  ['13:25', '12', '10', '0', '24.8', '108', '100', '13', ['stiff', 'gradual'], 'short'],
  ['13:45', '12', '10', '0.2', '25.1', '172', '100', '18', ['creamy', 'gradual'], 'good'],
  ['14:10', '12', '10', '0.4', '25.0', '265', '100', '34', ['creamy', 'gradual'], 'brown water at 30 min'],
  ['14:35', '12', '12', '0.2', '25.0', '205', '100', '24', ['segregating', 'gradual'], ''],
  ['14:55', '10', '11', '0.2', '25.2', '150', '98', '17', ['creamy', 'gradual'], ''],
  ['15:15', '14', '9', '0.2', '25.0', '191', '100', '20', ['creamy', 'gradual'], ''],
  ['15:35', '12', '10', '0.2', '35.2', '118', '100', '9', ['creamy', 'sudden'], 'below 120 s at 35 °C'],
  ['15:55', '12', '10', '0.3', '35.1', '141', '100', '11', ['creamy', 'gradual'], ''],
  ['16:15', '12', '10', '0.3', '25.1', '214', '100', '23', ['creamy', 'gradual'], ''],
]

/** The second day: Bram stirs cups, and the engineer takes the third as base of the series. */
export async function stirTrialMixes({ services, clock, calendar, people }: Cast, designId: string): Promise<void> {
  let base = ''
  for (const [
    time,
    emulsion,
    water,
    additive,
    temperature,
    mixTime,
    coated,
    clearWater,
    [consistency, broke],
    remark,
  ] of cups) {
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
      consistency,
      broke,
      startedAt: startedAt.toISOString(),
      remark,
    })
    if (value.number === 3) base = value.id
  }
  clock.set(calendar.at(2, '17:00').toISOString())
  await services.trials.useAsBase(people.engineer, designId, { id: newId(), cupId: base, contents: [] })
}

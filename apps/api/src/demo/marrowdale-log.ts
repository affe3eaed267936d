import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import type { DemoPeople } from './demo-laboratory.ts'
import { minutesAfter, type Story } from './demo-story.ts'

type Scene = {
  readonly services: Services
  readonly people: DemoPeople
  readonly calendar: DemoCalendar
  readonly instruments: DemoInstruments
}

/** What the bath held over the weekend, °C, every 20 minutes of an excursion: up to its peak and down again. Invented. */
const warm = [26.1, 26.2, 26.4, 26.5, 26.7, 26.8, 26.9, 27.0, 27.1, 27.2, 27.3, 27.4, 27.4, 27.3, 27.3, 27.2].concat([
  27.1, 27.0, 26.9, 26.8, 26.7, 26.6, 26.5, 26.4, 26.3, 26.2, 26.2, 26.1, 26.1,
])
/** The usual wander of a bath that holds, °C. Invented. */
const usual = [25.1, 25.0, 25.2, 25.1, 24.9, 25.0, 25.1, 25.3, 25.2]

/**
 * The bath's logger keeps the weekend and sends it on Monday morning: from Sunday 22:10 to Monday 07:50 it was too warm, and
 * the 15 discs inside are found by themselves. Later days are read by hand, with gaps between. The engineer decides on day 12.
 */
export function tellBathLog(story: Story, { services, people, calendar, instruments }: Scene): void {
  const bath = instruments['BATH-1']
  let key: string | null = null
  story.when(calendar.at(5, '10:15'), async () => {
    key = (await services.conditions.makeKey(people.manager, bath, { id: newId(), end: false })).value.key
  })
  const begin = calendar.at(5, '10:30')
  const leaves = calendar.at(7, '22:10')
  const end = calendar.at(8, '08:10')
  story.when(end, async () => {
    const values: { id: string; at: string; value: string; unit: '°C' }[] = []
    // Told from the moment it became too warm, back to Friday and on to Monday.
    const before = Math.floor((leaves.getTime() - begin.getTime()) / 1_200_000)
    const after = Math.floor((end.getTime() - leaves.getTime()) / 1_200_000)
    for (let step = -before; step <= after; step += 1) {
      const degrees = warm[step] ?? usual[(step + before) % usual.length]!
      values.push({
        id: newId(),
        at: minutesAfter(leaves, step * 20).toISOString(),
        value: degrees.toFixed(1),
        unit: '°C',
      })
    }
    await services.conditions.post(key ?? undefined, { values })
  })
  for (const [day, value] of [
    [9, '25.2'],
    [10, '25.0'],
    [11, '25.1'],
  ] as const)
    story.when(calendar.at(day, '07:40'), async () => {
      const at = calendar.at(day, '07:40').toISOString()
      await services.conditions.add(people.technician, bath, { values: [{ id: newId(), at, value, unit: '°C' }] })
    })
  story.when(calendar.at(12, '11:30'), () => acceptWarmBath({ services, people }))
}

async function acceptWarmBath({ services, people }: Pick<Scene, 'services' | 'people'>): Promise<void> {
  const { items } = await services.deviations.list(people.engineer, { open: true, designId: null })
  const deviation = items.find(({ kind, text }) => kind === 'condition' && text.startsWith('BATH-1'))
  if (!deviation) throw new Error('The story has a fault: the warm bath opened no deviation')
  await services.deviations.decide(people.engineer, deviation.id, {
    id: newId(),
    kind: 'accept',
    reason: 'A night at up to 27.4 °C of six days; warmer water can only raise the loss. It counts, and is printed.',
    spareTestId: null,
  })
}

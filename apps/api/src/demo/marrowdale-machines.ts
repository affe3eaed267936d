import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import type { DemoCalendar } from './demo-calendar.ts'
import type { DemoInstruments } from './demo-instruments.ts'
import type { DemoPeople } from './demo-laboratory.ts'
import type { Story } from './demo-story.ts'

type Scene = {
  readonly services: Services
  readonly people: DemoPeople
  readonly calendar: DemoCalendar
  readonly instruments: DemoInstruments
  /** The disc whose felt tore at the clamp. */
  readonly tornTestId: string
}

/**
 * What wears and is set on the machines: the hose split at the end of the 1-hour day and was changed before its last two
 * runs, the wheel's load was checked before its day, and what was seen when a felt tore. Lots and numbers invented.
 */
export function tellMachines(story: Story, { services, people, calendar, instruments, tornTestId }: Scene): void {
  const at = (day: number, clock: string) => {
    const eventAt = calendar.at(day, clock).toISOString()
    return { eventAt, eventFrom: 'now' as const, sentAt: eventAt }
  }
  const fit = (day: number, clock: string, machine: 'WTA-1' | 'LW-1', kind: 'hose' | 'tyre', lot: string) =>
    story.when(calendar.at(day, clock), () =>
      services.parts.fit(people.technician, instruments[machine], {
        id: newId(),
        kind,
        lot,
        hardness: null,
        time: at(day, clock),
      }),
    )
  fit(3, '08:10', 'WTA-1', 'hose', 'H-07')
  fit(3, '08:20', 'LW-1', 'tyre', 'T-03')
  fit(4, '15:06', 'WTA-1', 'hose', 'H-08')
  story.when(calendar.at(9, '08:05'), () =>
    services.checks.add(people.technician, instruments['LW-1'], {
      id: newId(),
      kind: 'load',
      typed: '56.8 kg',
      reference: 'Platform scale, 150 kg × 0.1 kg',
      time: at(9, '08:05'),
    }),
  )
  story.when(calendar.at(4, '13:40'), () =>
    services.observations.post(people.technician, tornTestId, {
      id: newId(),
      stepKey: 'abrade',
      choice: 'felt-torn',
      note: 'at the clamp, after 40 s',
      attachmentId: null,
      time: at(4, '13:40'),
    }),
  )
}

import type { EnterPanelResult } from '@curebook/contract/panel-results'
import { newId } from '#platform/uuid'
import type { Cast } from './marrowdale-story.ts'

type Told = Pick<EnterPanelResult, 'limitKey' | 'typed' | 'unit' | 'method' | 'instrument' | 'remark'>

/** What was found at the recommended content, by tests that nothing here computes. Invented numbers. */
const found: readonly Told[] = [
  {
    limitKey: 'cohesion-30-min',
    typed: '12.5',
    unit: 'kg·cm',
    method: 'TB-139',
    instrument: 'Cohesion tester',
    remark: 'Biscuits 12.5, 13.0, 12.0; break N; 25 °C',
  },
  {
    limitKey: 'cohesion-60-min',
    typed: '20.0',
    unit: 'kg·cm',
    method: 'TB-139',
    instrument: 'Cohesion tester',
    remark: 'Biscuits 19.5, 20.5, 20.0; break NS; 25 °C',
  },
  {
    limitKey: 'mix-time',
    typed: '171',
    unit: 's',
    method: 'TB-113',
    instrument: 'Stopwatch',
    remark: 'At 25 °C; 142 s at 35 °C with additive 0.3 %',
  },
  { limitKey: 'wet-stripping', typed: '95', unit: '%', method: 'TB-114', instrument: 'By eye, two people', remark: '' },
  {
    limitKey: 'lateral-displacement',
    typed: '2.6',
    unit: '%',
    method: 'TB-147',
    instrument: 'Calliper',
    remark: 'Specific gravity 2.04',
  },
]

/** The fifteenth day: the mix is confirmed at 12.0 %, by hand, before it is looked through. */
export async function confirmRecommended({ services, clock, calendar, people }: Cast, designId: string): Promise<void> {
  clock.set(calendar.at(15, '16:00').toISOString())
  for (const told of found)
    await services.designs.enterPanelResult(people.technician2, designId, {
      ...told,
      id: newId(),
      madeBy: 'entered',
      edition: '',
      source: '',
      laboratoryName: '',
      observedBy: people.technician2.name,
      observedOn: calendar.dayOf(15),
      atEmulsionPercent: '12.0',
      attachmentId: null,
    })
}

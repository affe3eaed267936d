import type { PanelResult } from '@curebook/contract/panel-results'

/** A mix time as it is entered, for tests and previews of the report. */
export const sampleEntered: PanelResult = {
  id: '01920000-0000-7000-8000-0000000000e1',
  limitKey: 'mix-time',
  typed: '171.5',
  value: '171.5',
  unit: 's',
  madeBy: 'entered',
  method: 'TB-113',
  edition: '2017',
  source: 'Own test by hand',
  laboratoryName: '',
  instrument: 'Stopwatch 2',
  observedBy: 'B. Person',
  observedOn: '2026-03-02',
  atEmulsionPercent: '12',
  remark: 'creamy',
  attachment: null,
  revision: 1,
  by: { membershipId: '01920000-0000-7000-8000-0000000000e2', name: 'B. Person', initials: 'BP' },
  at: '2026-03-02T10:00:00.000Z',
  supersedes: null,
}

import type { CreateInstrument } from '@curebook/contract/instruments'
import type { Actor } from '#platform/actor'
import { newId } from '#platform/uuid'
import type { Services } from '../services.ts'
import type { DemoCalendar } from './demo-calendar.ts'

type Listed = Pick<CreateInstrument, 'code' | 'kind' | 'name'> & {
  capacity?: string
  resolution?: string
  validDays: number
  factors?: readonly { typed: string; unit: 'g/m²' | 'g/ft²' }[]
  area?: string
  edition?: string
}

const listed = [
  {
    code: 'BAL-1',
    kind: 'balance',
    name: 'Balance, 6 kg × 0.1 g: discs and batches',
    capacity: '6000',
    resolution: '0.1',
    validDays: 150,
  },
  {
    code: 'BAL-2',
    kind: 'balance',
    name: 'Balance, 1.2 kg × 0.01 g: strips, filler, additive',
    capacity: '1200',
    resolution: '0.01',
    validDays: 150,
  },
  {
    code: 'BAL-3',
    kind: 'balance',
    name: 'Platform scale, 35 kg × 1 g: receiving',
    capacity: '35000',
    resolution: '1',
    validDays: 21,
  },
  {
    code: 'WTA-1',
    kind: 'wet-track-machine',
    name: 'Wet track machine, reference class, 300 s',
    validDays: 200,
    factors: [
      { typed: '32.9', unit: 'g/m²' },
      { typed: '3.06', unit: 'g/ft²' },
    ],
    area: '303.8',
    edition: 'ISSA TB-100, reference class, from memory, unverified',
  },
  {
    code: 'LW-1',
    kind: 'loaded-wheel',
    name: 'Loaded wheel, one track; frame 38.1 × 355.6 mm',
    validDays: 200,
    factors: [
      { typed: '73.81', unit: 'g/m²' },
      { typed: '6.857', unit: 'g/ft²' },
    ],
    area: '135.48',
    edition: '1 / frame opening, measured here',
  },
  { code: 'COH-1', kind: 'cohesion-tester', name: 'Cohesion tester, read to 0.5 kg·cm', validDays: 150 },
  { code: 'OV-1', kind: 'oven', name: 'Oven, 60 °C, 18 discs', validDays: 60 },
  { code: 'OV-2', kind: 'oven', name: 'Oven, 60 °C, 18 discs', validDays: 60 },
  { code: 'BATH-1', kind: 'bath', name: 'Bath, 25 °C, 16 places', validDays: 200 },
] as const satisfies readonly Listed[]

export type DemoInstruments = Record<(typeof listed)[number]['code'], string>

/** The laboratory's instruments with calibrations and, for machines, the factor of each unit as published. Invented. */
export async function makeDemoInstruments(
  services: Services,
  manager: Actor,
  calendar: DemoCalendar,
): Promise<DemoInstruments> {
  const ids = {} as DemoInstruments
  for (const { code, kind, name, validDays, ...more } of listed as readonly Listed[]) {
    const id = newId()
    ids[code as keyof DemoInstruments] = id
    await services.instruments.create(manager, {
      id,
      code,
      kind,
      name,
      serial: '',
      place: 'Bench hall',
      capacity: more.capacity ?? null,
      capacityUnit: more.capacity ? 'g' : null,
      resolution: more.resolution ?? null,
    })
    const until = new Date(calendar.at(1, '12:00').getTime() + (validDays + 16) * 86_400_000).toISOString().slice(0, 10)
    await services.instruments.addCalibration(manager, id, {
      id: newId(),
      doneOn: calendar.dayOf(-90),
      validUntil: until,
      certificate: `C-${code}-26`,
      passed: true,
    })
    for (const factor of more.factors ?? [])
      await services.instruments.addFactor(manager, id, {
        id: newId(),
        key: kind === 'loaded-wheel' ? 'frame' : 'area',
        ...factor,
        measuredAreaCm2: more.area ?? null,
        edition: more.edition!,
        effectiveFrom: calendar.dayOf(-90),
      })
  }
  return ids
}

import type { AddFactor, CreateInstrument, Instrument, InstrumentFactor } from '@curebook/contract/instruments'
import { newId } from '../../../apps/api/src/platform/uuid.ts'
import type { TestApp } from '../app.ts'
import type { TestLaboratory } from './laboratory.ts'

/** An instrument; a wet track machine unless told otherwise. */
export async function makeInstrument(
  testApp: TestApp,
  lab: TestLaboratory,
  changes: Partial<CreateInstrument> = {},
): Promise<Instrument> {
  const input: CreateInstrument = {
    id: newId(),
    code: 'WTA-1',
    kind: 'wet-track-machine',
    name: 'Wet track machine, reference class',
    serial: '',
    place: '',
    capacity: null,
    capacityUnit: null,
    resolution: null,
    ...changes,
  }
  return (await testApp.services.instruments.create(lab.people.manager.actor, input)).value
}

/** The factor of a machine: 32.9 g/m² for the reference class, unless told otherwise. */
export async function makeFactor(
  testApp: TestApp,
  lab: TestLaboratory,
  instrumentId: string,
  changes: Partial<AddFactor> = {},
): Promise<InstrumentFactor> {
  const input: AddFactor = {
    id: newId(),
    key: 'area',
    typed: '32.9',
    unit: 'g/m²',
    measuredAreaCm2: '303.8',
    edition: 'ISSA TB-100, from memory, unverified',
    effectiveFrom: '2026-01-01',
    ...changes,
  }
  return (await testApp.services.instruments.addFactor(lab.people.manager.actor, instrumentId, input)).value
}

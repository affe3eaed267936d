/** What is checked of an instrument in daily use, between calibrations. */
export const checkKinds = ['load', 'known-mass', 'temperature', 'dimension'] as const
export type CheckKind = (typeof checkKinds)[number]

/** Units that each kind is read in. */
export const checkUnits: Readonly<Record<CheckKind, readonly ('lb' | 'kg' | 'g' | '°C' | 'mm')[]>> = {
  load: ['lb', 'kg'],
  'known-mass': ['g', 'kg'],
  temperature: ['°C'],
  dimension: ['mm'],
}

/** What can be checked of each kind of instrument; of others nothing is. */
export const checksOfInstrument: Readonly<Partial<Record<string, readonly CheckKind[]>>> = {
  'loaded-wheel': ['load', 'dimension'],
  'wet-track-machine': ['dimension'],
  balance: ['known-mass'],
  oven: ['temperature'],
  bath: ['temperature'],
  thermometer: ['temperature'],
}

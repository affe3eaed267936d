/** What is checked of an instrument in daily use, between calibrations. */
export const checkKinds = ['load', 'known-mass', 'temperature', 'dimension', 'pressure', 'torque'] as const
export type CheckKind = (typeof checkKinds)[number]

/** Every unit that a check is read in. */
export const checkUnitNames = ['lb', 'kg', 'g', '°C', 'mm', 'kPa', 'psi', 'kg·cm', 'N·m'] as const

/** Units that each kind is read in. */
export const checkUnits: Readonly<Record<CheckKind, readonly (typeof checkUnitNames)[number][]>> = {
  load: ['lb', 'kg'],
  'known-mass': ['g', 'kg'],
  temperature: ['°C'],
  dimension: ['mm'],
  // Of the foot; and the mean of twists on a check surface, fine paper or graded sand.
  pressure: ['kPa', 'psi'],
  torque: ['kg·cm', 'N·m'],
}

/** What can be checked of each kind of instrument; of others nothing is. */
export const checksOfInstrument: Readonly<Partial<Record<string, readonly CheckKind[]>>> = {
  'loaded-wheel': ['load', 'dimension'],
  'wet-track-machine': ['dimension'],
  'cohesion-tester': ['pressure', 'torque', 'dimension'],
  balance: ['known-mass'],
  oven: ['temperature'],
  bath: ['temperature'],
  thermometer: ['temperature'],
}

import type { BuiltInEdition, EditionParameters } from '../procedure/declaration.ts'
import { practiceSource, practised, remembered, replicatesPractised } from './edition-parameter.ts'
import type { AreaFactorClass } from './machine-factor.ts'
import { wetTrackMethod, type WetTrackSoak } from './wet-track-method.ts'

const tb100 = (value: string, unit: string, label: string) => remembered('ISSA TB-100', value, unit, label)

/**
 * Machine classes by size and use. The factor of a result is the machine's own; this table is what a factor is checked
 * against. A machine of another kind has its area measured.
 */
export const areaFactorClasses: readonly AreaFactorClass[] = [
  machineClass('a', 'A: small bench planetary mixer, 5 quart'),
  machineClass('a-modified', 'A′: small bench planetary mixer with a modified head'),
  machineClass('b', 'B: reference class, planetary mixer, 10 quart'),
  machineClass('c', 'C: planetary mixer, 12 quart'),
]

function machineClass(key: string, name: string): AreaFactorClass {
  return {
    key,
    name,
    runSecondsParameter: `class-${key}-run`,
    factorParameters: { 'g/m²': `class-${key}-factor-g-m2`, 'g/ft²': `class-${key}-factor-g-ft2` },
  }
}

const classParameters: EditionParameters = {
  'class-a-run': tb100('315', 's', 'Run time, class A'),
  'class-a-factor-g-m2': tb100('37.5', 'g/m²', 'Factor for each gram lost, class A'),
  'class-a-factor-g-ft2': tb100('3.48', 'g/ft²', 'Factor for each gram lost, class A'),
  'class-a-modified-run': practised('315', 's', 'Run time, class A′'),
  'class-a-modified-factor-g-m2': practised('29.2', 'g/m²', 'Factor for each gram lost, class A′'),
  'class-a-modified-factor-g-ft2': practised('2.71', 'g/ft²', 'Factor for each gram lost, class A′'),
  'class-b-run': tb100('300', 's', 'Run time, class B (reference)'),
  'class-b-factor-g-m2': tb100('32.9', 'g/m²', 'Factor for each gram lost, class B (reference)'),
  'class-b-factor-g-ft2': tb100('3.06', 'g/ft²', 'Factor for each gram lost, class B (reference)'),
  'class-c-run': tb100('405', 's', 'Run time, class C'),
  'class-c-factor-g-m2': tb100('29.9', 'g/m²', 'Factor for each gram lost, class C'),
  'class-c-factor-g-ft2': tb100('2.78', 'g/ft²', 'Factor for each gram lost, class C'),
}

/** Everything but the soak, as of ISSA TB-100 and as practised. */
export const wetTrackParameters: EditionParameters = {
  ...replicatesPractised('3'), // common practice, no source
  'disc-diameter': tb100('279', 'mm', 'Diameter of the disc'),
  'disc-thickness': tb100('6.35', 'mm', 'Thickness of the template'),
  'felt-diameter': tb100('286', 'mm', 'Diameter of the felt'),
  'strike-off-latest': practised('15', 's', 'Striking off, at most'),
  'cast-to-oven-latest': practised('3', 'h', 'Casting to oven, at most'),
  'cure-temperature': tb100('60', '°C', 'Oven while curing'),
  'cure-temperature-tolerance': tb100('3', '°C', 'Oven while curing, tolerance'),
  'cure-earliest': tb100('15', 'h', 'Cure, at least'),
  'cure-latest': practised('24', 'h', 'Cure, at most'),
  'constant-mass': practised('0.2', 'g', 'Constant mass: two weighings of a check disc differ by no more than'),
  'constant-mass-interval': practised('1', 'h', 'Constant mass: time between the two weighings'),
  'balance-step': practised('0.1', 'g', 'Balance, smallest step'),
  'soak-temperature': tb100('25', '°C', 'Bath while soaking'),
  'soak-temperature-tolerance': tb100('1', '°C', 'Bath while soaking, tolerance'),
  'water-temperature': tb100('25', '°C', 'Water in the pan'),
  'water-temperature-tolerance': practised('1', '°C', 'Water in the pan, tolerance'),
  'water-depth': tb100('6', 'mm', 'Water over the surface, at least'),
  'head-mass': tb100('2.27', 'kg', 'Abrasion head, free to float (5 lb)'),
  'hose-bore': tb100('19', 'mm', 'Hose, bore'),
  'hose-wall': tb100('6.35', 'mm', 'Hose, wall'),
  'hose-length': tb100('127', 'mm', 'Hose, length of a piece'),
  'pan-diameter': tb100('330', 'mm', 'Pan, diameter'),
  'pan-wall': tb100('51', 'mm', 'Pan, height of its wall'),
  'run-seconds': tb100('300', 's', 'Run time where the machine names no class of its own'),
  'run-seconds-tolerance': tb100('2', 's', 'Run time, tolerance'),
  'dry-back-temperature': practised('60', '°C', 'Oven while drying back'),
  'dry-back-temperature-tolerance': practised('3', '°C', 'Oven while drying back, tolerance'),
  'dry-back-earliest': practised('15', 'h', 'Dry back, at least'),
  'dry-back-latest': practised('24', 'h', 'Dry back, beyond which it is a finding'),
  'weigh-after-latest': practised('2', 'h', 'Leaving the oven to last weighing, at most'),
  'factor-difference': practised('2', '%', 'Factor against measured area or class, asked about beyond'),
  ...classParameters,
}

const oneHour: WetTrackSoak = {
  words: '1-hour soak',
  // Half a gram and less is asked about; balances show 0.1 g.
  plausible: { from: '0.6', to: '45', source: practiceSource },
}
const sixDays: WetTrackSoak = {
  words: '6-day soak',
  // A gram and less is asked about; balances show 0.1 g.
  plausible: { from: '1.1', to: '60', source: practiceSource },
}

const issaEdition = (soak: EditionParameters): BuiltInEdition => ({
  key: 'issa-tb-100',
  designation: 'ISSA TB-100',
  year: 'year not checked',
  effectiveFrom: '2010-01-01',
  parameters: { ...wetTrackParameters, ...soak },
})
const source = 'ISSA TB-100, from memory, unverified'

export const wetTrackAbrasion1h = wetTrackMethod({
  key: 'wet-track-abrasion-1h',
  name: 'Wet track abrasion, 1-hour soak',
  shortName: 'Abrasion, 1 h',
  answer: { property: 'abrasion-loss', soak: '1-hour' },
  soak: oneHour,
  source,
  editions: [
    issaEdition({
      'soak-earliest': tb100('60', 'min', '1-hour soak: abrasion begins, at the earliest'),
      'soak-latest': tb100('75', 'min', '1-hour soak: abrasion begins, at the latest'),
    }),
  ],
})
export const wetTrackAbrasion6d = wetTrackMethod({
  key: 'wet-track-abrasion-6d',
  name: 'Wet track abrasion, 6-day soak',
  shortName: 'Abrasion, 6 d',
  answer: { property: 'abrasion-loss', soak: '6-day' },
  soak: sixDays,
  source,
  editions: [
    issaEdition({
      'soak-earliest': tb100('144', 'h', '6-day soak: abrasion begins, at the earliest'),
      'soak-latest': practised('146', 'h', '6-day soak: abrasion begins, at the latest'),
    }),
  ],
})

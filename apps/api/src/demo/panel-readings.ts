/** Readings of the tests beside the series, by step; a list is a reading of several pieces. Invented throughout. */
export type StepReadings = Readonly<Record<string, string | readonly string[]>>

/** Cups of the mix: temperature, mix time in s, clear water after min, how it broke. About 5 s less for each degree. */
export const cups = {
  'trial-mix': [
    ['24.8', '176', '18', 'gradual'],
    ['25.3', '169', '17', 'gradual'],
  ],
  'trial-mix-at-temperature': [
    ['30.2', '149', '13', 'gradual'],
    ['35.1', '128', '10', 'gradual'],
    ['40.3', '104', '7', 'sudden'],
  ],
} as const

/** Two sets of rings: minute as planned, minute as twisted, torque in kg·cm, break. */
export const rings = [
  [
    ['20', '20', '8.5', 'soft'],
    ['30', '30', '12.5', 'n'],
    ['60', '60', '20.5', 'ns'],
    ['90', '90.5', '22.0', 'ns'],
    ['120', '120', '23.0', 's'],
  ],
  [
    ['20', '20.5', '9.5', 'soft'],
    ['30', '30', '13.0', 'n'],
    ['60', '60.5', '21.0', 'ns'],
    ['90', '90', '22.5', 's'],
    ['120', '120', '24.0', 's'],
  ],
] as const

/** Two thick strips: about 2.5 % wider and 5 % thinner after the wheel, in mm; weighed off their plates, in g. */
export const thickStrips: readonly Readonly<Record<'before' | 'after' | 'weighed', StepReadings>>[] = [
  {
    before: { 'thickness-over': 'strip', width: '50.86', thickness: '12.74' },
    after: { width: '52.13', thickness: '12.10' },
    weighed: { 'weighed-as': 'alone', 'in-air': '498.62', 'in-water': '254.37', 'surface-dry': '499.05' },
  },
  {
    before: { 'thickness-over': 'strip', width: '50.81', thickness: '12.81' },
    after: { width: '52.24', thickness: '12.08' },
    weighed: { 'weighed-as': 'alone', 'in-air': '501.17', 'in-water': '256.04', 'surface-dry': '501.55' },
  },
]

/** A set of four pills up to its bath: components, heights in mm, and masses in g. */
export const pills: Readonly<Record<'components' | 'pressed' | 'dry', StepReadings>> = {
  components: { fines: '200.02', emulsion: '26.08', filler: '2.00', water: '24.00', additive: '0.40' },
  pressed: { height: ['27.4', '27.6', '27.3', '27.5'] },
  dry: { mass: ['39.84', '40.11', '39.92', '40.05'] },
}

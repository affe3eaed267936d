import type { BuiltInSpecification } from '../specification.ts'
import { gradationBand } from './gradation-bands.ts'
import { abrasion, adhesion, also, band, cohesion, documents, information, mixTime, stripping } from './limit-text.ts'
import { crushed, losAngeles, penetration, residue, sandEquivalent, soundness } from './materials.ts'

const a105 = documents.memory('ISSA A105')
const slurry = `${documents.irc}, slurry seal`
const { caltrans } = documents
const quick = 'quick-traffic systems'

/** ISSA A105, slurry seal: types I to III. */
export const issaA105: BuiltInSpecification = {
  key: 'issa-a105',
  name: 'A105 guideline values: slurry seal',
  source: 'ISSA A105, a guideline; a contract makes it binding, usually with changes',
  traffics: ['heavy', 'medium', 'light'],
  residualBands: {
    'Type I': band('10.0', '16.0', { source: a105 }),
    'Type II': band('7.5', '13.5', { source: a105 }),
    'Type III': band('6.5', '12.0', { source: a105 }),
  },
  gradationBands: {
    'Type I': gradationBand('Type I'),
    'Type II': gradationBand('Type II'),
    'Type III': gradationBand('Type III'),
  },
  limits: [
    abrasion('1-hour', '807', {
      usValue: '75',
      usUnit: 'g/ft²',
      source: a105,
      alsoPublished: [...also('800', 'g/m²', slurry), ...also('810', 'g/m²', caltrans)],
    }),
    mixTime('180', { source: a105, alsoPublished: also('180', 's', slurry) }),
    cohesion('30', '12', { source: a105, condition: quick }),
    cohesion('60', '20', { source: a105, condition: quick, alsoPublished: also('20', 'kg·cm', slurry, caltrans) }),
    stripping('90', { source: a105, alsoPublished: also('90', '%', slurry) }),
    adhesion('heavy', '538', { usValue: '50', usUnit: 'g/ft²', source: a105 }),
    sandEquivalent('45', { source: a105, alsoPublished: also('50', '%', slurry) }),
    soundness('15', '25', { source: a105, alsoPublished: also('12', '%', slurry) }),
    losAngeles('35', { source: a105 }),
    crushed({ source: a105 }),
    residue('60', { source: a105 }),
    penetration('40', '90', { source: a105 }),
  ],
  information: [
    information('Mineral filler', '0.5 to 2.0 % of dry aggregate, cement or lime', a105, 'from memory'),
    information(
      'Rate of application',
      '4.3 to 6.5 kg/m² (8 to 12 lb/yd²), dry aggregate',
      a105,
      'from memory',
      'Type I',
    ),
    information(
      'Rate of application',
      '5.4 to 9.8 kg/m² (10 to 18 lb/yd²), dry aggregate',
      a105,
      'from memory',
      'Type II',
    ),
    information(
      'Rate of application',
      '8.1 to 11.9 kg/m² (15 to 22 lb/yd²), dry aggregate',
      a105,
      'from memory',
      'Type III',
    ),
    information(
      'Weather',
      'not below 10 °C and falling; above 7 °C and rising; no frost within 24 h',
      a105,
      'from memory',
    ),
    information('Emulsion', 'SS-1, SS-1h, CSS-1, CSS-1h, QS-1h or CQS-1h', a105, 'from memory'),
  ],
}

import type { BandSieve, BuiltInSpecification, GradationBand } from '../specification.ts'
import { bandSieve } from './gradation-bands.ts'
import { abrasion, band, cohesion, consistency, documents, information, limit, stripping } from './limit-text.ts'
import { crushed } from './materials.ts'

const source = documents.caltrans
const read = { source, certainty: 'published', clause: '37-3.02B(1)' } as const

function gradation(...sieves: readonly BandSieve[]): GradationBand {
  return { sieves, source, clause: '37-3.02A', certainty: 'published' }
}
// Openings in mm: designations of ASTM E11, as the agency prints them.
const openings = {
  wide: ['9.5', '3/8 in, 9.5 mm'],
  no4: ['4.75', 'No. 4, 4.75 mm'],
  no8: ['2.36', 'No. 8, 2.36 mm'],
  no16: ['1.18', 'No. 16, 1.18 mm'],
  no30: ['0.600', 'No. 30, 0.600 mm'],
  no200: ['0.075', 'No. 200, 0.075 mm'],
} as const
const passing = (opening: keyof typeof openings) => (from: string, to: string) =>
  bandSieve([...openings[opening], from, to])
const wide = passing('wide')('100', '100')
const [no4, no8, no16, no30, no200] = [
  passing('no4'),
  passing('no8'),
  passing('no16'),
  passing('no30'),
  passing('no200'),
]

/** The agency holds emulsion, not residual binder: the band of residual binder is open. */
const noBand = band(null, null, { source: `${source}: holds the emulsion content instead`, certainty: 'published' })
const emulsion = (type: string, from: string, to: string) =>
  limit({
    key: 'emulsion-content',
    label: 'Emulsion content',
    sense: 'between',
    value: from,
    upper: to,
    unit: '% of dry aggregate',
    types: [type],
    ...read,
  })

/**
 * Caltrans, slurry seal: 37-3.02A (gradation, and the sentence on crushed aggregate under its table) and 37-3.02B(1) (mix
 * table with its notes, emulsion table) were read. The gradation has no rows at No. 50 and No. 100.
 */
export const caltrans373: BuiltInSpecification = {
  key: 'caltrans-37-3-slurry',
  name: 'Caltrans section 37-3: slurry seal',
  source,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type I': noBand, 'Type II': noBand, 'Type III': noBand },
  gradationBands: {
    'Type I': gradation(no4('100', '100'), no8('90', '100'), no16('60', '90'), no30('40', '65'), no200('10', '20')),
    'Type II': gradation(wide, no4('94', '100'), no8('65', '90'), no16('40', '70'), no30('25', '50'), no200('5', '15')),
    'Type III': gradation(wide, no4('70', '90'), no8('45', '70'), no16('28', '50'), no30('19', '34'), no200('5', '15')),
  },
  limits: [
    abrasion('1-hour', '810', { ...read, condition: 'soak as in the bulletin' }),
    consistency('30', read),
    // The agency prints 200 kg·mm within an hour.
    cohesion('60', '20', { ...read, condition: 'printed as 200 kg·mm, within 1 hour' }),
    stripping(null, { ...read, condition: '“Pass”: no number is printed' }),
    emulsion('Type I', '15', '20'),
    emulsion('Type II', '12', '18'),
    emulsion('Type III', '10', '15'),
    crushed({ ...read, clause: '37-3.02A, under the table', condition: 'of what is larger than the No. 50 sieve' }),
  ],
  information: [
    information(
      'Compatibility in the cup (ISSA TB-115)',
      '“Pass”, at the highest air temperature expected at the site',
      `${source}, 37-3.02B(1), table of the mix, note b`,
      'published',
    ),
    information(
      'Asphalt ratio on the site',
      'within ± 0.5 kg of asphalt for 100 kg of dry aggregate of the ratio determined (California Test 310)',
      `${source}, 37-3.03B(1)`,
      'published',
    ),
    information(
      'On the road',
      'cured for traffic within 1 hour; no bleeding, ravelling or separation for 15 days',
      `${source}, 37-3.03B(2)`,
      'published',
    ),
  ],
}

import type { BuiltInSpecification } from '../specification.ts'
import { band, documents, information, limit, type LimitText } from './limit-text.ts'

const source = 'EN 12273:2008'
const certainty = 'published'

/** Declared by the producer: a value or a category with its test, and nothing to pass or fail. */
const declared = (text: Pick<LimitText, 'key' | 'label' | 'unit' | 'method'> & Partial<LimitText>) =>
  limit({ sense: 'declared', value: null, source, certainty, ...text })

/** The European standard asks for declarations by category, not for a recipe. It holds no upper end by a loaded wheel. */
export const en12273: BuiltInSpecification = {
  key: 'en-12273-2008',
  name: 'EN 12273, 2008: declaration of slurry surfacing',
  source: `${source}, declared values and categories; design by EN 12274-5 finds a minimum binder content alone`,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: {
    'as declared': band(null, null, { source: `${source}: the binder content is declared`, certainty }),
  },
  limits: [
    declared({
      key: 'residual-binder-content',
      label: 'Residual binder content',
      // Part 2 gives it in % by mass and was read in extracts that name no basis; extraction finds a share of the dried sample.
      unit: '% of total dry mix',
      method: 'EN 12274-2:2018',
      condition: 'by mass; the total dry mix as its basis is from memory, unverified',
    }),
    declared({
      key: 'consistency',
      label: 'Consistency by cone',
      unit: 'mm',
      method: 'EN 12274-3:2018',
      condition: 'slurry of D ≤ 4 mm alone',
    }),
    declared({ key: 'set-time', label: 'Set time by cohesion', unit: 'min', method: 'EN 12274-4:2018' }),
    declared({
      key: 'traffic-time',
      label: 'Time to traffic by cohesion',
      unit: 'min',
      method: 'EN 12274-4:2018',
    }),
    declared({
      key: 'wearing',
      label: 'Wearing, wet track',
      unit: 'g/m²',
      method: 'EN 12274-5:2018',
    }),
    declared({ key: 'shaking-abrasion', label: 'Shaking abrasion', unit: 'g', method: 'EN 12274-7:2005' }),
    declared({
      key: 'application-rate',
      label: 'Rate of application',
      unit: 'kg/m²',
      method: 'EN 12274-6',
      source: documents.memory(source),
      certainty: 'from memory',
    }),
    declared({
      key: 'visible-defects',
      label: 'Defects seen, share of the area',
      unit: '%',
      method: 'EN 12274-8:2005',
    }),
    declared({
      key: 'macrotexture',
      label: 'Macrotexture',
      unit: 'mm',
      method: 'EN 13036-1',
      source: documents.memory(source),
      certainty: 'from memory',
    }),
  ],
  information: [
    information(
      'Gradation',
      'declared by the producer with its tolerance; sieve sets 2, 4, 5.6 (5), 8, 11.2 (11) mm or 2 (2.8), 4, 6.3 (6), 8, 10, 12.5 (12) mm',
      source,
      certainty,
    ),
    information('Binder and aggregate', 'binder to EN 13808, aggregate to EN 13043', source, certainty),
  ],
}

import type { BuiltInSpecification } from '../specification.ts'
import {
  abrasion,
  adhesion,
  band,
  cohesion,
  consistency,
  limit,
  mixTime,
  specificGravity,
  stripping,
} from './limit-text.ts'

// Which tests the two practices ask for was read; their figures, and those of MP 28 and MP 32, were not. Each property is
// asked for and no limit is held: the laboratory enters those of its own copy, or of the contract.
const unread = 'no figure was read: enter that of your own copy or of the contract'
const pp83 = { source: 'AASHTO PP 83-16 (2016) with MP 28', certainty: 'published', condition: unread } as const
const pp87 = { source: 'AASHTO PP 87-17 (2017) with MP 32', certainty: 'published', condition: unread } as const
const open83 = band(null, null, { source: `${pp83.source}: no band was read`, certainty: 'published' })
const open87 = band(null, null, { source: `${pp87.source}: no band was read`, certainty: 'published' })

export const aashtoPp83: BuiltInSpecification = {
  key: 'aashto-pp-83-mp-28',
  name: 'AASHTO PP 83 with MP 28: micro-surfacing',
  source: pp83.source,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type II': open83, 'Type III': open83 },
  limits: [
    abrasion('1-hour', null, pp83),
    abrasion('6-day', null, pp83),
    adhesion(null, null, pp83),
    mixTime(null, pp83),
    cohesion('30', null, pp83),
    cohesion('60', null, pp83),
    stripping(null, pp83),
    limit({
      key: 'compatibility',
      label: 'Compatibility of aggregate, filler and binder (TB-144)',
      sense: 'min',
      value: null,
      unit: 'points',
      method: 'ISSA TB-144',
      ...pp83,
    }),
    ...(['lateral', 'vertical'] as const).map((way) =>
      limit({
        key: `${way}-displacement`,
        label: `${way === 'lateral' ? 'Lateral' : 'Vertical'} displacement (TB-147)`,
        sense: 'max',
        value: null,
        unit: '%',
        method: 'ISSA TB-147',
        ...pp83,
      }),
    ),
    specificGravity(null, pp83),
  ],
}

export const aashtoPp87: BuiltInSpecification = {
  key: 'aashto-pp-87-mp-32',
  name: 'AASHTO PP 87 with MP 32: slurry seal',
  source: pp87.source,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type I': open87, 'Type II': open87, 'Type III': open87 },
  limits: [
    abrasion('1-hour', null, pp87),
    consistency(null, pp87),
    adhesion(null, null, pp87),
    mixTime(null, pp87),
    stripping(null, pp87),
    cohesion('30', null, pp87),
    cohesion('60', null, pp87),
  ],
}

import type { BuiltInSpecification } from '../specification.ts'
import { band, information, limit } from './limit-text.ts'
import { residue, softeningPoint } from './materials.ts'

const types = ['Type I', 'Type II', 'Type III']
const colorado = 'Colorado slurry seal specification of the asphalt trade'
const read = { source: colorado, certainty: 'published' } as const
const dakota = 'North Dakota micro-surfacing provision'
const readDakota = { source: dakota, certainty: 'published' } as const

/** A wide band for all types, and the emulsion that belongs to it. */
export const coloradoSlurry: BuiltInSpecification = {
  key: 'colorado-slurry',
  name: 'Colorado trade specification: slurry seal',
  source: colorado,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: Object.fromEntries(types.map((type) => [type, band('5', '15', read)])),
  limits: [
    limit({
      key: 'emulsion-content',
      label: 'Emulsion content',
      sense: 'between',
      value: '10',
      upper: '20',
      unit: '% of dry aggregate',
      ...read,
    }),
  ],
}

/** What one state asks of micro-surfacing beyond the guideline. */
export const northDakotaMicro: BuiltInSpecification = {
  key: 'north-dakota-micro',
  name: 'North Dakota provision: micro-surfacing',
  source: dakota,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type II': band('5', '9', readDakota), 'Type III': band('5', '9', readDakota) },
  limits: [
    residue('62', { ...readDakota, condition: 'distilled at 350 °F (177 °C) for 20 min' }),
    softeningPoint(readDakota),
    limit({
      key: 'residue-viscosity',
      label: 'Absolute viscosity of the residue',
      sense: 'min',
      value: '8000',
      unit: 'poise',
      group: 'emulsion',
      ...readDakota,
    }),
  ],
  information: [information('Mineral filler', '0.5 to 3 % of dry aggregate', dakota, 'published')],
}

import type { BuiltInSpecification } from '../specification.ts'
import { gradationBand } from './gradation-bands.ts'
import { band, consistency, documents, information } from './limit-text.ts'

const source = documents.ufc
const certainty = 'published'
const noBand = band(null, null, { source: `${source}: no band was read`, certainty })
const own = (clause: string) => ({ tolerances: false, source, clause })

/** US military manual, slurry seal. */
export const ufcSlurry: BuiltInSpecification = {
  key: 'ufc-3-250-03-2001-slurry',
  name: 'UFC 3-250-03, 2001: slurry seal',
  source: `${source}, slurry seal and appendix C`,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type I': noBand },
  gradationBands: { 'Type I': gradationBand('Type I', own('slurry seal, aggregate gradation')) },
  limits: [
    consistency(null, {
      source,
      certainty,
      clause: 'appendix C',
      condition: 'target 25.4 mm (1 in), no limit printed',
    }),
  ],
  information: [information('Mineral filler', '0.5 to 4.0 % of the total mix', source, certainty)],
}

/** US military manual, micro-surfacing: types II and III alone. */
export const ufcMicro: BuiltInSpecification = {
  key: 'ufc-3-250-03-2001-micro',
  name: 'UFC 3-250-03, 2001: micro-surfacing',
  source: `${source}, micro-surfacing`,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type II': noBand, 'Type III': noBand },
  gradationBands: {
    'Type II': gradationBand('Type II', own('micro-surfacing, aggregate gradation')),
    'Type III': gradationBand('Type III', own('micro-surfacing, aggregate gradation')),
  },
  limits: [],
  information: [information('Mineral filler', 'not more than 3.0 %', source, certainty)],
}

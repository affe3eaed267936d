import type { BuiltInSpecification, GradationBand } from '../specification.ts'
import { bandSieve, gradationBand } from './gradation-bands.ts'
import { abrasion, band, cohesion, consistency, documents, information, mixTime, stripping } from './limit-text.ts'
import { sandEquivalent, soundness, waterAbsorption } from './materials.ts'

const source = `${documents.irc}, micro-surfacing`
const slurry = `${documents.irc}, slurry seal`
const certainty = 'published'
const read = { source, certainty, clause: 'table of mix requirements' } as const
/** Printed beside 20 kg·cm; the break is seen by eye and stands in the test. */
const nearSpin = 'or near spin: the torque alone is judged here'
const readSlurry = { source: slurry, certainty, clause: 'table of mix requirements' } as const

/** As in the guidelines, with a sieve of 6.3 mm between: IRC:SP:100 (2014). */
function withFine(type: 'Type II' | 'Type III', from: string): GradationBand {
  const { sieves, ...rest } = gradationBand(type, { tolerances: false, source, clause: 'table of gradation' })
  const wider = bandSieve(['6.3', '6.3 mm', from, '100'])
  return { ...rest, sieves: [sieves[0]!, wider, ...sieves.slice(1)] }
}

/** Indian Roads Congress, micro-surfacing: the whole table of limits was read. */
export const ircMicro: BuiltInSpecification = {
  key: 'irc-sp-100-2014-micro',
  name: 'IRC:SP:100, 2014: micro-surfacing',
  source: `${documents.irc}, tables for micro-surfacing`,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: {
    'Type II': band('6.5', '10.5', { source, certainty }),
    'Type III': band('5.5', '10.5', { source, certainty }),
  },
  gradationBands: { 'Type II': withFine('Type II', '100'), 'Type III': withFine('Type III', '91') },
  limits: [
    abrasion('1-hour', '538', read),
    mixTime('120', read),
    consistency('30', read),
    cohesion('30', '12', read),
    cohesion('60', '20', { ...read, condition: nearSpin }),
    stripping('90', read),
  ],
  information: [
    information('Mineral filler', '0.5 to 3.0 % of dry aggregate', source, certainty),
    information('Additives and water', 'as needed', source, certainty),
    information('Rate of application', '8.4 to 10.8 kg/m²', source, certainty, 'Type II'),
    information('Rate of application', '11.1 to 16.3 kg/m²', source, certainty, 'Type III'),
    information('Thickness of a layer', '4 to 6 mm', source, certainty, 'Type II'),
    information('Thickness of a layer', '6 to 8 mm', source, certainty, 'Type III'),
  ],
}

const noBand = band(null, null, { source: `${slurry}: no band was read`, certainty })

/** Indian Roads Congress, slurry seal. Its gradations and its band of residual binder were not read, and none is held. */
export const ircSlurry: BuiltInSpecification = {
  key: 'irc-sp-100-2014-slurry',
  name: 'IRC:SP:100, 2014: slurry seal',
  source: `${documents.irc}, tables for slurry seal`,
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type I': noBand, 'Type II': noBand, 'Type III': noBand },
  limits: [
    abrasion('1-hour', '800', readSlurry),
    mixTime('180', readSlurry),
    consistency('30', readSlurry),
    cohesion('60', '20', { ...readSlurry, condition: nearSpin }),
    stripping('90', readSlurry),
    sandEquivalent('50', { source: slurry, certainty, clause: 'table of aggregate quality' }),
    soundness('12', '18', { source: slurry, certainty, clause: 'table of aggregate quality' }),
    waterAbsorption('2', {
      source: slurry,
      certainty,
      clause: 'table of aggregate quality',
      condition: 'up to 4 % where soundness and stripping pass',
    }),
  ],
}

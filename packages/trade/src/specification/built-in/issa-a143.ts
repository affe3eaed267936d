import type { BuiltInSpecification } from '../specification.ts'
import { gradationBand } from './gradation-bands.ts'
import {
  abrasion,
  adhesion,
  also,
  band,
  cohesion,
  documents,
  information,
  limit,
  mixTime,
  specificGravity,
  stripping,
} from './limit-text.ts'
import {
  crushed,
  losAngeles,
  penetration,
  polymerSolids,
  residue,
  sandEquivalent,
  softeningPoint,
  soundness,
} from './materials.ts'

const a143 = documents.memory('ISSA A143 (2010)')
const unsure = `${a143} and unsure`
const micro = `${documents.irc}, micro-surfacing`
const feet = (usValue: string) => ({ usValue, usUnit: 'g/ft²' })
const agencies = `${documents.florida}; micro-surfacing provisions of agencies that follow ISSA A143`

/** ISSA A143 (2010), micro-surfacing: types II and III. */
export const issaA143: BuiltInSpecification = {
  key: 'issa-a143-2010',
  name: 'A143 guideline values, 2010: micro-surfacing',
  source: 'ISSA A143 (2010), a guideline; a contract makes it binding, usually with changes',
  traffics: ['heavy', 'medium', 'light'],
  residualBands: {
    'Type II': band('5.5', '10.5', { source: a143 }),
    'Type III': band('5.5', '10.5', { source: a143 }),
  },
  gradationBands: { 'Type II': gradationBand('Type II'), 'Type III': gradationBand('Type III') },
  limits: [
    abrasion('1-hour', '538', { ...feet('50'), source: a143, alsoPublished: also('538', 'g/m²', micro) }),
    abrasion('6-day', '807', { ...feet('75'), source: a143 }),
    adhesion('heavy', '538', { ...feet('50'), source: a143 }),
    adhesion('medium', '646', { ...feet('60'), source: unsure }),
    adhesion('light', '753', { ...feet('70'), source: unsure }),
    mixTime('120', {
      source: `${documents.nchrp}, mix design of micro-surfacing; ${micro}`,
      certainty: 'published',
      alsoPublished: also('120', 's', documents.nchrp, micro),
    }),
    cohesion('30', '12', { source: a143, alsoPublished: also('12', 'kg·cm', micro) }),
    cohesion('60', '20', { source: a143, alsoPublished: also('20', 'kg·cm', micro) }),
    stripping('90', { source: a143, alsoPublished: also('90', '%', micro) }),
    limit({
      key: 'compatibility',
      label: 'Compatibility of aggregate, filler and binder (TB-144)',
      sense: 'min',
      value: '11',
      unit: 'points',
      method: 'ISSA TB-144',
      source: a143,
    }),
    limit({
      key: 'lateral-displacement',
      label: 'Lateral displacement (TB-147)',
      sense: 'max',
      value: '5',
      unit: '%',
      method: 'ISSA TB-147',
      source: a143,
    }),
    specificGravity('2.10', { source: a143 }),
    sandEquivalent('65', { source: a143 }),
    soundness('15', '25', { source: a143 }),
    losAngeles('30', { source: a143, alsoPublished: also('35', '%', 'Kentucky special note on micro-surfacing') }),
    crushed({ source: a143, alsoPublished: also('100', '%', documents.colorado) }),
    residue('62', {
      source: a143,
      alsoPublished: also('62', '%', 'Caltrans micro-surfacing special provision (older)'),
    }),
    polymerSolids({ source: agencies, certainty: 'published' }),
    softeningPoint({ source: agencies, certainty: 'published' }),
    penetration('40', '90', {
      source: 'trade press on micro-surfacing specifications, citing ISSA A143',
      certainty: 'published',
    }),
  ],
  information: [
    information('Mineral filler', '0.0 to 3.0 % of dry aggregate', a143, 'from memory'),
    information(
      'Rate of application',
      '5.4 to 10.8 kg/m² (10 to 20 lb/yd²), dry aggregate',
      a143,
      'from memory',
      'Type II',
    ),
    information(
      'Rate of application',
      '8.1 to 16.3 kg/m² (15 to 30 lb/yd²), dry aggregate',
      a143,
      'from memory',
      'Type III',
    ),
    information(
      'Weather',
      'not below 10 °C and falling; above 7 °C and rising; no frost within 24 h',
      a143,
      'from memory',
    ),
    information(
      'Stockpile',
      'inside the target gradation ± its tolerance and inside the band at once',
      documents.colorado,
      'published',
    ),
    information(
      'Elastic recovery of the residue',
      'often at least 50 % (10 °C, 5 cm/min, 20 cm, held for 5 min)',
      documents.florida,
      'published',
    ),
    information('Emulsion', 'CSS-1h or CQS-1h, polymer-modified', documents.florida, 'published'),
  ],
}

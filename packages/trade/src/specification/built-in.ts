import type { BuiltInSpecification, Limit, ResidualBand, Traffic } from './specification.ts'

const irc = 'IRC:SP:100-2014'
const caltrans = 'Caltrans Standard Specifications, section 37-3'
const a143 = 'ISSA A143 (2010), from memory, unverified'
const a105 = 'ISSA A105, from memory, unverified'

type LimitText = Pick<Limit, 'key' | 'label' | 'sense' | 'value' | 'unit' | 'source'> & Partial<Limit>

/** A guideline limit: results are compared unrounded, by simple acceptance, until a contract says otherwise. */
function limit(text: LimitText): Limit {
  return {
    property: text.key,
    soak: null,
    traffic: null,
    usValue: null,
    usUnit: null,
    rounding: 'none',
    decisionRule: 'simple acceptance',
    certainty: 'from memory',
    alsoPublished: [],
    condition: null,
    changedFrom: null,
    changeReason: null,
    ...text,
  }
}

function abrasion(soak: '1-hour' | '6-day', value: string, usValue: string, text: Partial<Limit> & { source: string }) {
  return limit({
    key: `abrasion-loss-${soak}`,
    property: 'abrasion-loss',
    label: `Abrasion loss, ${soak} soak`,
    soak,
    sense: 'max',
    value,
    unit: 'g/m²',
    usValue,
    usUnit: 'g/ft²',
    ...text,
  })
}

function adhesion(traffic: Traffic, value: string, usValue: string, source: string) {
  const label = `Sand adhesion, ${traffic} traffic`
  const us = { usValue, usUnit: 'g/ft²' }
  return limit({ key: 'sand-adhesion', label, traffic, sense: 'max', value, unit: 'g/m²', ...us, source })
}

function mixTime(value: string, text: Partial<Limit> & { source: string }) {
  return limit({ key: 'mix-time', label: 'Mix time', sense: 'min', value, unit: 's', condition: 'at 25 °C', ...text })
}

function cohesion(
  minutes: '30' | '60',
  value: string,
  source: string,
  publishedIn: readonly string[],
  condition?: string,
) {
  return limit({
    key: `cohesion-${minutes}-min`,
    label: `Cohesion at ${minutes} min`,
    sense: 'min',
    value,
    unit: 'kg·cm',
    source,
    alsoPublished: publishedIn.map((document) => ({ source: document, value, unit: 'kg·cm' })),
    condition: condition ?? null,
  })
}

function stripping(source: string, publishedIn: string) {
  const alsoPublished = [{ source: publishedIn, value: '90', unit: '%' }]
  const text = { key: 'wet-stripping', label: 'Wet stripping, surface still coated' }
  return limit({ ...text, sense: 'min', value: '90', unit: '%', source, alsoPublished })
}

function band(from: string, to: string, source: string): ResidualBand {
  const unit = '% of dry aggregate'
  return { from, to, unit, source, certainty: 'from memory', changedFrom: null, changeReason: null }
}

const micro = `${irc}, micro-surfacing`
const slurry = `${irc}, slurry seal`
const unsure = `${a143} and unsure`

const microSurfacing: BuiltInSpecification = {
  key: 'issa-a143-2010',
  name: 'A143 guideline values, 2010: micro-surfacing',
  source: 'ISSA A143 (2010), a guideline; a contract makes it binding, usually with changes',
  traffics: ['heavy', 'medium', 'light'],
  residualBands: { 'Type II': band('5.5', '10.5', a143), 'Type III': band('5.5', '10.5', a143) },
  limits: [
    abrasion('1-hour', '538', '50', {
      source: a143,
      alsoPublished: [{ source: micro, value: '538', unit: 'g/m²' }],
    }),
    abrasion('6-day', '807', '75', { source: a143 }),
    adhesion('heavy', '538', '50', a143),
    adhesion('medium', '646', '60', unsure),
    adhesion('light', '753', '70', unsure),
    mixTime('120', {
      source: `NCHRP Synthesis 411 (2010), mix design of micro-surfacing; ${micro}`,
      certainty: 'published',
      alsoPublished: [
        { source: 'NCHRP Synthesis 411 (2010)', value: '120', unit: 's' },
        { source: micro, value: '120', unit: 's' },
      ],
    }),
    cohesion('30', '12', a143, [micro]),
    cohesion('60', '20', a143, [micro]),
    stripping(a143, micro),
    limit({
      key: 'compatibility',
      label: 'Compatibility of aggregate, filler and binder (TB-144)',
      sense: 'min',
      value: '11',
      unit: 'points',
      source: a143,
    }),
    limit({
      key: 'lateral-displacement',
      label: 'Lateral displacement (TB-147)',
      sense: 'max',
      value: '5',
      unit: '%',
      source: a143,
    }),
  ],
}

const quick = 'quick-traffic systems'

const slurrySeal: BuiltInSpecification = {
  key: 'issa-a105',
  name: 'A105 guideline values: slurry seal',
  source: 'ISSA A105, a guideline; a contract makes it binding, usually with changes',
  traffics: ['heavy', 'medium', 'light'],
  residualBands: {
    'Type I': band('10.0', '16.0', a105),
    'Type II': band('7.5', '13.5', a105),
    'Type III': band('6.5', '12.0', a105),
  },
  limits: [
    abrasion('1-hour', '807', '75', {
      source: a105,
      alsoPublished: [
        { source: slurry, value: '800', unit: 'g/m²' },
        { source: caltrans, value: '810', unit: 'g/m²' },
      ],
    }),
    mixTime('180', { source: a105, alsoPublished: [{ source: slurry, value: '180', unit: 's' }] }),
    cohesion('30', '12', a105, [], quick),
    cohesion('60', '20', a105, [slurry, caltrans], quick),
    stripping(a105, slurry),
    adhesion('heavy', '538', '50', a105),
  ],
}

/** Guideline values that a project's specification is copied from. */
export const builtInSpecifications: readonly BuiltInSpecification[] = [microSurfacing, slurrySeal]

import type { BuiltInLimit, Information, ResidualBand, Traffic } from '../specification.ts'

export type LimitText = Pick<BuiltInLimit, 'key' | 'label' | 'sense' | 'value' | 'unit' | 'source'> &
  Partial<BuiltInLimit>
/** What a limit differs in from its kind; where it comes from must be said. */
export type Sourced = Partial<BuiltInLimit> & { readonly source: string }

/** A guideline limit: results are compared unrounded, by simple acceptance, until a contract says otherwise. */
export function limit(text: LimitText): BuiltInLimit {
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

export function abrasion(soak: '1-hour' | '6-day', value: string | null, text: Sourced) {
  return limit({
    key: `abrasion-loss-${soak}`,
    property: 'abrasion-loss',
    label: `Abrasion loss, ${soak} soak`,
    soak,
    sense: 'max',
    value,
    unit: 'g/m²',
    method: 'ISSA TB-100',
    ...text,
  })
}

export function adhesion(traffic: Traffic | null, value: string | null, text: Sourced) {
  const label = traffic === null ? 'Sand adhesion' : `Sand adhesion, ${traffic} traffic`
  return limit({
    key: 'sand-adhesion',
    label,
    traffic,
    sense: 'max',
    value,
    unit: 'g/m²',
    method: 'ISSA TB-109',
    ...text,
  })
}

export function mixTime(value: string | null, text: Sourced) {
  const method = 'ISSA TB-113'
  return limit({
    key: 'mix-time',
    label: 'Mix time',
    sense: 'min',
    value,
    unit: 's',
    condition: 'at 25 °C',
    method,
    ...text,
  })
}

export function cohesion(minutes: '30' | '60', value: string | null, text: Sourced) {
  return limit({
    key: `cohesion-${minutes}-min`,
    label: `Cohesion at ${minutes} min`,
    sense: 'min',
    value,
    unit: 'kg·cm',
    method: 'ISSA TB-139',
    ...text,
  })
}

export function stripping(value: string | null, text: Sourced) {
  const label = 'Wet stripping, surface still coated'
  return limit({ key: 'wet-stripping', label, sense: 'min', value, unit: '%', method: 'ISSA TB-114', ...text })
}

/** A ratio without a unit: what is denser under the wheel than the limit densifies under traffic. */
export function specificGravity(value: string | null, text: Sourced) {
  return limit({
    key: 'specific-gravity',
    label: 'Specific gravity after the wheel (TB-147)',
    sense: 'max',
    value,
    unit: '1',
    method: 'ISSA TB-147',
    ...text,
  })
}

/** Spread of the cone; asked for where a source prints it (a mix that breaks during the test has none). */
export function consistency(value: string | null, text: Sourced) {
  return limit({
    key: 'consistency',
    label: 'Consistency by cone',
    sense: 'max',
    value,
    unit: 'mm',
    method: 'ISSA TB-106',
    ...text,
  })
}

/** The same value, printed in another document. */
export const also = (value: string, unit: string, ...sources: readonly string[]) =>
  sources.map((source) => ({ source, value, unit }))

export function band(
  from: string | null,
  to: string | null,
  text: Pick<ResidualBand, 'source'> & Partial<ResidualBand>,
): ResidualBand {
  return {
    from,
    to,
    unit: '% of dry aggregate',
    certainty: 'from memory',
    changedFrom: null,
    changeReason: null,
    ...text,
  }
}

export function information(
  label: string,
  words: string,
  source: string,
  certainty: Information['certainty'],
  ...types: readonly string[]
) {
  return { label, words, source, certainty, ...(types.length > 0 ? { types } : {}) }
}

/** Documents that several tables name. */
export const documents = {
  irc: 'IRC:SP:100-2014',
  caltrans: 'Caltrans Standard Specifications, section 37-3',
  ufc: 'UFC 3-250-03 (2001)',
  nchrp: 'NCHRP Synthesis 411 (2010)',
  colorado: 'Colorado special provision 409 (2011)',
  florida: 'Florida section 335 (2014)',
  memory: (document: string) => `${document}, from memory, unverified`,
}

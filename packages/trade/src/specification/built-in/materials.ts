import { limit, type Sourced } from './limit-text.ts'

// Limits of what the mix is made of. They stand in the panel like the others, tested or not.

export function sandEquivalent(value: string | null, text: Sourced) {
  return limit({
    key: 'sand-equivalent',
    label: 'Sand equivalent',
    sense: 'min',
    value,
    unit: '%',
    method: 'AASHTO T 176',
    group: 'aggregate',
    ...text,
  })
}

/** Sodium and magnesium sulfate are not interchangeable; the figure for the other salt stands in the condition. */
export function soundness(value: string, magnesium: string, text: Sourced) {
  return limit({
    key: 'soundness',
    label: 'Soundness, loss in sodium sulfate',
    sense: 'max',
    value,
    unit: '%',
    method: 'AASHTO T 104',
    group: 'aggregate',
    condition: `in magnesium sulfate instead: at most ${magnesium} %`,
    ...text,
  })
}

export function losAngeles(value: string, text: Sourced) {
  return limit({
    key: 'los-angeles-abrasion',
    label: 'Abrasion of the aggregate, Los Angeles',
    sense: 'max',
    value,
    unit: '%',
    method: 'AASHTO T 96',
    group: 'aggregate',
    condition: 'asked for under heavy traffic, optional else',
    ...text,
  })
}

export function crushed(text: Sourced) {
  return limit({
    key: 'crushed-particles',
    label: 'Crushed particles',
    sense: 'min',
    value: '100',
    unit: '%',
    group: 'aggregate',
    ...text,
  })
}

export function waterAbsorption(value: string, text: Sourced) {
  return limit({
    key: 'water-absorption',
    label: 'Water absorption of the aggregate',
    sense: 'max',
    value,
    unit: '%',
    group: 'aggregate',
    ...text,
  })
}

export function residue(value: string, text: Sourced) {
  return limit({
    key: 'emulsion-residue',
    label: 'Residue of the emulsion',
    property: 'residue',
    sense: 'min',
    value,
    unit: '%',
    method: 'AASHTO T 59',
    group: 'emulsion',
    ...text,
  })
}

export function polymerSolids(text: Sourced) {
  return limit({
    key: 'polymer-solids',
    label: 'Polymer solids',
    sense: 'min',
    value: '3',
    unit: '%',
    group: 'emulsion',
    condition: 'of the mass of the binder',
    ...text,
  })
}

export function softeningPoint(text: Sourced) {
  return limit({
    key: 'residue-softening-point',
    label: 'Softening point of the residue',
    property: 'softening-point',
    sense: 'min',
    value: '57',
    unit: '°C',
    usValue: '135',
    usUnit: '°F',
    method: 'AASHTO T 53',
    group: 'emulsion',
    ...text,
  })
}

export function penetration(from: string, to: string, text: Sourced) {
  return limit({
    key: 'residue-penetration',
    label: 'Penetration of the residue, tenths of a millimetre',
    property: 'penetration',
    sense: 'between',
    value: from,
    upper: to,
    unit: 'dmm',
    method: 'AASHTO T 49',
    group: 'emulsion',
    condition: 'at 25 °C',
    ...text,
  })
}

/**
 * The units of the trade and their exact relations, as plain data: light enough for the browser, no arithmetic here.
 * Definitions: the international foot (0.3048 m exactly) and pound (0.45359237 kg exactly), agreement of 1959;
 * standard gravity 9.80665 m/s² (third General Conference on Weights and Measures, 1901);
 * degree Fahrenheit: t/°C = (t/°F − 32) ÷ 1.8.
 */
export type Dimension =
  | 'mass'
  | 'mass per area'
  | 'length'
  | 'area'
  | 'volume'
  | 'temperature'
  | 'time'
  | 'torque'
  | 'pressure'
  | 'angle'
  | 'share'
  | 'share of dry aggregate'
  | 'share of dry aggregate and filler'
  | 'share of total dry mix'
  | 'count'

export type UnitDefinition = {
  readonly dimension: Dimension
  /** Value in the base unit of the dimension = (value − offset) × numerator ÷ denominator. */
  readonly numerator: string
  readonly denominator: string
  readonly offset?: string
  /** For sentences: "a number in grams". */
  readonly words: string
}

const unit = (dimension: Dimension, words: string, numerator: string, denominator = '1', offset?: string) =>
  ({ dimension, words, numerator, denominator, ...(offset === undefined ? {} : { offset }) }) satisfies UnitDefinition

/** By the definitions named above; those of SI prefixes and of time are exact. */
export const units = {
  g: unit('mass', 'grams', '1'),
  kg: unit('mass', 'kilograms', '1000'),
  mg: unit('mass', 'milligrams', '1', '1000'),
  lb: unit('mass', 'pounds', '453.59237'),
  'g/m²': unit('mass per area', 'grams per square metre', '1'),
  'g/ft²': unit('mass per area', 'grams per square foot', '1', '0.09290304'),
  mm: unit('length', 'millimetres', '1'),
  cm: unit('length', 'centimetres', '10'),
  m: unit('length', 'metres', '1000'),
  in: unit('length', 'inches', '25.4'),
  ft: unit('length', 'feet', '304.8'),
  'mm²': unit('area', 'square millimetres', '1', '100'),
  'cm²': unit('area', 'square centimetres', '1'),
  'm²': unit('area', 'square metres', '10000'),
  'in²': unit('area', 'square inches', '6.4516'),
  'ft²': unit('area', 'square feet', '929.0304'),
  L: unit('volume', 'litres', '1'),
  mL: unit('volume', 'millilitres', '1', '1000'),
  // The US gallon, 231 cubic inches of 2.54 cm: 3.785411784 L exactly.
  gal: unit('volume', 'US gallons', '3.785411784'),
  '°C': unit('temperature', 'degrees Celsius', '1'),
  '°F': unit('temperature', 'degrees Fahrenheit', '1', '1.8', '32'),
  s: unit('time', 'seconds', '1'),
  min: unit('time', 'minutes', '60'),
  h: unit('time', 'hours', '3600'),
  d: unit('time', 'days', '86400'),
  'kg·cm': unit('torque', 'kilogram-centimetres', '0.0980665'),
  'kg·mm': unit('torque', 'kilogram-millimetres', '0.00980665'),
  'N·m': unit('torque', 'newton-metres', '1'),
  kPa: unit('pressure', 'kilopascals', '1'),
  // Pound-force on a square inch: 0.45359237 kg × 9.80665 m/s² over 6.4516 cm², 4.4482216152605 N over 0.64516 × 10⁻³ m².
  psi: unit('pressure', 'pounds on a square inch', '4.4482216152605', '0.64516'),
  '°': unit('angle', 'degrees of arc', '1'),
  '%': unit('share', 'per cent', '1'),
  // A share is nothing without its basis: these four never convert into each other.
  '% of dry aggregate': unit('share of dry aggregate', 'per cent of dry aggregate', '1'),
  '% of dry aggregate and filler': unit(
    'share of dry aggregate and filler',
    'per cent of dry aggregate and filler',
    '1',
  ),
  '% of total dry mix': unit('share of total dry mix', 'per cent of total dry mix', '1'),
  count: unit('count', 'whole numbers', '1'),
} as const satisfies Readonly<Record<string, UnitDefinition>>

export type Unit = keyof typeof units

/** Units of plain numbers: a count, and a quantity of dimension one. Nobody writes them. */
const unwritten = new Set(['count', '1'])

/** A unit as it is written beside a number or in a head; empty where none is. */
export function writtenUnit(unit: string | null | undefined): string {
  return unit == null || unwritten.has(unit) ? '' : unit
}

/** Spellings that people and instruments use, in lower case without spaces and full stops. */
export const unitAliases: Readonly<Record<string, Unit>> = {
  gr: 'g',
  gm: 'g',
  gms: 'g',
  gram: 'g',
  grams: 'g',
  gramme: 'g',
  grammes: 'g',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  milligram: 'mg',
  milligrams: 'mg',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  'g/m2': 'g/m²',
  'g/m^2': 'g/m²',
  gsm: 'g/m²',
  'g/ft2': 'g/ft²',
  'g/ft^2': 'g/ft²',
  'g/sqft': 'g/ft²',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  mm2: 'mm²',
  cm2: 'cm²',
  'cm^2': 'cm²',
  sqcm: 'cm²',
  m2: 'm²',
  'm^2': 'm²',
  in2: 'in²',
  'in^2': 'in²',
  sqin: 'in²',
  ft2: 'ft²',
  'ft^2': 'ft²',
  sqft: 'ft²',
  litre: 'L',
  litres: 'L',
  liter: 'L',
  liters: 'L',
  gallon: 'gal',
  gallons: 'gal',
  c: '°C',
  degc: '°C',
  ºc: '°C',
  f: '°F',
  degf: '°F',
  ºf: '°F',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  mins: 'min',
  minute: 'min',
  minutes: 'min',
  hr: 'h',
  hrs: 'h',
  hour: 'h',
  hours: 'h',
  day: 'd',
  days: 'd',
  'kg-cm': 'kg·cm',
  'kg*cm': 'kg·cm',
  kgcm: 'kg·cm',
  'kgf·cm': 'kg·cm',
  'kgf-cm': 'kg·cm',
  'kg-mm': 'kg·mm',
  'kg*mm': 'kg·mm',
  kgmm: 'kg·mm',
  'n-m': 'N·m',
  'n*m': 'N·m',
  nm: 'N·m',
  pct: '%',
  percent: '%',
}

const bySpelling: ReadonlyMap<string, Unit> = new Map(
  (Object.keys(units) as Unit[]).map((key) => [key.toLowerCase().replace(/[\s.]/g, ''), key]),
)

/** Whether the text is exactly the name of a unit as kept in records. */
export function isUnit(text: string): text is Unit {
  return Object.hasOwn(units, text)
}

/** The unit that a typed spelling means ("gr", "G", "g/m2"), or undefined. */
export function unitOfSpelling(text: string): Unit | undefined {
  const spelling = text.toLowerCase().replace(/[\s.]/g, '')
  return bySpelling.get(spelling) ?? (Object.hasOwn(unitAliases, spelling) ? unitAliases[spelling] : undefined)
}

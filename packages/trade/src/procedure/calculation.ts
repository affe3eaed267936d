/**
 * The working behind a result, line by line, in a form that a program sharing no code with the methods can re-evaluate
 * (see `calculation-checker.ts`). Values are decimal strings at full precision.
 */
export type CalculationOperation =
  | 'input' // a value taken from a reading, another result, a machine factor or an edition parameter
  | 'difference' // operands[0] − operands[1]
  | 'product' // all operands multiplied
  | 'quotient' // operands[0] ÷ operands[1]
  | 'sum' // all operands added
  | 'mean' // sum of the operands ÷ their number
  | 'convert' // operands[0] × the exact factor of operands[1] (a literal)
  | 'interpolate' // operands: x, x0, y0, x1, y1 → y0 + (x − x0)·(y1 − y0)/(x1 − x0)
  | 'round' // operands[0] to operands[1] decimals, halves to even

/** Where an input line came from. `id` is the record's id; absent for a literal constant. */
export type CalculationInput = {
  readonly kind: 'reading' | 'result' | 'factor' | 'parameter' | 'constant'
  readonly id?: string
  /** For a parameter, its key in the edition. */
  readonly key?: string
}

export type CalculationLine = {
  /** Short symbol, unique in the calculation: W1, W2, F, loss … */
  readonly symbol: string
  /** What it is, in words. */
  readonly name: string
  readonly op: CalculationOperation
  /** Symbols of earlier lines, or literal decimal numbers. Empty for `input`. */
  readonly operands: readonly string[]
  /** Decimal digits, unrounded. */
  readonly value: string
  readonly unit: string
  /** Designation, year, clause or table; for a reading "as weighed". */
  readonly source: string
  readonly input?: CalculationInput
}

export type Calculation = { readonly schema: 1; readonly lines: readonly CalculationLine[] }

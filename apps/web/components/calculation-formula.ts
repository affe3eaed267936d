import type { CalculationLine, CalculationOperation } from '@curebook/trade/procedure/calculation'

/** A line's arithmetic as people write it: `W1 − W2`, `mean of a, b, c`; an input says in words that it was taken as it stands. */
export function formulaOf(
  { op, operands }: Pick<CalculationLine, 'op' | 'operands'>,
  wordOf: (operation: CalculationOperation) => string,
): string {
  if (op === 'difference') return operands.join(' − ')
  if (op === 'product' || op === 'convert') return operands.join(' × ')
  if (op === 'quotient') return operands.join(' ÷ ')
  if (op === 'sum') return operands.join(' + ')
  if (op === 'mean') return `${wordOf('mean')} ${operands.join(', ')}`
  if (op === 'interpolate') {
    const [x, x0, y0, x1, y1] = operands
    return `${y0} + (${x} − ${x0}) × (${y1} − ${y0}) ÷ (${x1} − ${x0})`
  }
  if (op === 'round') return `${operands[0]}, ${wordOf('round')} ${operands[1]}`
  return wordOf('input')
}

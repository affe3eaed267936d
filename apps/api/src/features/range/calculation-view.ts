import type { Calculation } from '@curebook/contract/results'
import type { Calculation as TradeCalculation } from '@curebook/trade/procedure/calculation'

/** The stored form is the shown form; only the type loses its readonly. */
export function toCalculation({ schema, lines }: TradeCalculation): Calculation {
  return {
    schema,
    lines: lines.map((line) => ({
      ...line,
      operands: [...line.operands],
      ...(line.input ? { input: { ...line.input } } : {}),
    })) as Calculation['lines'],
  }
}

import type { PanelRow } from '@curebook/contract/range'
import type { Status } from '#components/status-mark.tsx'

/** The mark of each verdict. */
export const marks = {
  pass: 'pass',
  fail: 'fail',
  undecided: 'undecided',
  'not tested': 'not-tested',
  'no limit held': 'no-limit',
} as const satisfies Record<PanelRow['verdict'], Status>

/**
 * A computed value is cut for the eye, a ratio later than a quantity; what was entered stands as typed, unless converting
 * it made it long.
 */
export function decimalsOf({ unit, entered }: Pick<PanelRow, 'unit' | 'entered'>, digits: string): number | undefined {
  if (entered === null) return unit === '1' ? 2 : 1
  return (digits.split('.')[1]?.length ?? 0) > 2 ? 2 : undefined
}

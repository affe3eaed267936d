import type { PanelRow } from '@curebook/contract/range'
import { cutTo } from '@curebook/contract/shown-decimals'
import type { Status } from '#components/status-mark.tsx'

/** The mark of each verdict. */
export const marks = {
  pass: 'pass',
  fail: 'fail',
  undecided: 'undecided',
  'not tested': 'not-tested',
  'no limit held': 'no-limit',
} as const satisfies Record<PanelRow['verdict'], Status>

/** As the report cuts it: what is longer than means of its unit are shown; what was typed is seldom so, unless converting made it. */
export function decimalsOf({ unit }: Pick<PanelRow, 'unit'>, digits: string): number | undefined {
  return cutTo(unit, digits)
}

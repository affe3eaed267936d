import type { GradationCheck, PanelRow } from './range.ts'

/** How a gradation stands beside the verdicts of the panel: outside fails, and what is not known on every sieve is not passed. */
export function gradationVerdict(
  { verdict }: Pick<GradationCheck, 'verdict'>,
  isEntered: boolean,
): PanelRow['verdict'] {
  if (verdict === 'inside') return 'pass'
  if (verdict === 'outside') return 'fail'
  return isEntered ? 'undecided' : 'not tested'
}

import type { WindowState } from '@curebook/contract/bench'
import type { JudgedWindow } from '@curebook/trade/procedure/windows'

export function toWindowState(window: JudgedWindow): WindowState {
  const { key, label, step, opensAt, closesAt, state, marginSeconds, late } = window
  return { key, label, stepKey: step, opensAt, closesAt, state, marginSeconds, finding: late === 'finding' }
}

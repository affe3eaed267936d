import type { PanelRow } from '@curebook/contract/range'
import { expect, test } from 'vitest'
import { decisiveRows, sharedContent } from './decisive-rows.ts'

const row = (label: string, verdict: PanelRow['verdict']) => ({ label, verdict })

test('what fails stands before what is undecided and what passes, each in the order of the panel', () => {
  const panel = [
    row('Soak, 1 h', 'pass'),
    row('Set', 'not tested'),
    row('Soak, 6 d', 'undecided'),
    row('Sand', 'fail'),
    row('Cohesion', 'pass'),
    row('Traffic', 'no limit held'),
  ]
  expect(decisiveRows(panel).map(({ label }) => label)).toEqual(['Sand', 'Soak, 6 d', 'Soak, 1 h', 'Cohesion'])
})

test('one content at which all were judged is said once; what is the same at any content changes nothing', () => {
  const at = (...texts: readonly (string | null)[]) => sharedContent(texts.map((text) => ({ at: text })))
  expect(at('at 12 % emulsion', null, 'at 12.0 % emulsion')).toBe('at 12 % emulsion')
  expect(at('at 12,5 % emulsion', 'at 12.5 % emulsion')).toBe('at 12,5 % emulsion')
  expect(at('at 12 % emulsion', 'at 13 % emulsion')).toBeNull()
  expect(at(null)).toBeNull()
})

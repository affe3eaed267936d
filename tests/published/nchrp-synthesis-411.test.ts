import { expect, test } from 'vitest'
import { limitOf } from './guideline-limits.ts'

// Source: NCHRP Synthesis 411 (2010), mix design of micro-surfacing: at least 120 s of mix time at 25 °C.
test('the built-in mix time of micro-surfacing is the published one', () => {
  expect(limitOf('issa-a143-2010', 'mix-time')).toMatchObject({
    value: '120',
    unit: 's',
    sense: 'min',
    condition: 'at 25 °C',
    certainty: 'published',
  })
})

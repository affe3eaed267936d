import { expect, test } from 'vitest'
import { acceptanceEnds, decisionsWords } from './limit-decision.ts'

const U = { expanded: '12.5', coverageFactor: '2', source: 'repeatability record' }
const limit = { label: 'Abrasion', value: '538', unit: 'g/m²', sense: 'max', uncertainty: U } as const

test('a guard band moves every end inwards, the other rules none', () => {
  expect(acceptanceEnds({ ...limit, decisionRule: 'guard band' })).toEqual({ lower: null, upper: '525.5' })
  const between = { ...limit, value: '40', upper: '90', sense: 'between' } as const
  expect(acceptanceEnds({ ...between, decisionRule: 'guard band' })).toEqual({ lower: '52.5', upper: '77.5' })
  expect(acceptanceEnds({ ...between, decisionRule: 'non-binary' })).toEqual({ lower: '40', upper: '90' })
  expect(acceptanceEnds({ ...limit, decisionRule: 'guard band', uncertainty: null })).toBeUndefined()
  expect(acceptanceEnds({ ...limit, value: null, decisionRule: 'simple acceptance' })).toBeUndefined()
})

test('rules are printed once where all limits share one, else those of the fewer with their limits', () => {
  const simple = { ...limit, label: 'Mix time', decisionRule: 'simple acceptance' } as const
  expect(decisionsWords([])).toBe('simple acceptance')
  expect(decisionsWords([simple, { ...simple, label: 'Adhesion' }])).toBe('simple acceptance')
  const guarded = { ...limit, decisionRule: 'guard band' } as const
  expect(decisionsWords([guarded, simple, { ...simple, label: 'Adhesion' }])).toBe(
    'Abrasion: guard band of U = 12.5 g/m², k = 2 (repeatability record; ILAC-G8:09/2019); all others: simple acceptance',
  )
})

import type { TrialCup } from '@curebook/contract/trials'
import { expect, test } from 'vitest'
import { timedCups } from './timed-cups.ts'

const value = (digits: string) => ({ typed: `${digits} as typed`, value: digits })
const cup = (more: Partial<TrialCup>) =>
  ({
    number: 3,
    emulsion: value('12'),
    water: value('10'),
    additive: value('0.2'),
    filler: value('1'),
    temperature: value('25.1'),
    mixTime: value('172'),
    broke: 'gradual',
    ...more,
  }) as TrialCup

test('a cup counts with its recipe as numbers once temperature and mix time are known', () => {
  expect(timedCups([cup({}), cup({ mixTime: null }), cup({ temperature: null })])).toEqual([
    { number: 3, recipe: ['12', '10', '0.2', '1'], temperature: '25.1', mixTime: '172' },
  ])
})

test('stirring that stopped before the mix broke is no mix time to compare', () => {
  expect(timedCups([cup({ broke: 'not-broken' }), cup({ broke: null })])).toHaveLength(1)
})

import { expect, test } from 'vitest'
import { createKeyBurst, type PressedKey } from './key-burst.ts'

function press(keys: readonly string[], gap: number, begin = 0): PressedKey[] {
  const take = createKeyBurst()
  return keys.map((key, index) => take(key, begin + index * gap))
}

test.each(['ST,GS,+  0812.4 g', '812.4', '7KD2', '10-3'])('%s typed at once and ended by Enter is a burst', (text) => {
  expect(press([...text, 'Enter'], 4).at(-1)).toEqual({ burst: text })
  expect(press([...text, 'Enter'], 50).at(-1)).toEqual({ burst: text })
})

test('what a person types is none, however it ends', () => {
  expect(press([...'812.4', 'Enter'], 51)).toEqual(Array<PressedKey>(6).fill('apart'))
})

test('the keys of a burst are known from the second on', () => {
  expect(press([...'812', 'Enter'], 10)).toEqual(['apart', 'within', 'within', { burst: '812' }])
})

test('a shortcut of two letters is none yet, however quick', () => {
  expect(press(['g', 'b'], 5)).toEqual(['apart', 'apart'])
  expect(press(['g', 'b', '4'], 5).at(-1)).toBe('within')
})

test('Shift between the characters is no character', () => {
  expect(press(['Shift', 'S', 'Shift', 'T', ',', '1', 'Enter'], 10).at(-1)).toEqual({ burst: 'ST,1' })
})

test('a person’s keys before it are not part of it, nor an Enter long after it', () => {
  const take = createKeyBurst()
  take('9', 0)
  const burst = [...'640.0'].map((key, index) => take(key, 400 + index * 5))
  expect(burst.at(-1)).toBe('within')
  expect(take('Enter', 1000)).toBe('apart')
})

test('two keys and Enter are a bounced finger', () => {
  expect(press(['8', '8', 'Enter'], 10).at(-1)).toBe('apart')
})

test('the next burst begins anew', () => {
  const take = createKeyBurst()
  const type = (text: string, begin: number) =>
    [...text, 'Enter'].map((key, index) => take(key, begin + index * 5)).at(-1)
  expect(type('812.4', 0)).toEqual({ burst: '812.4' })
  expect(type('773.7', 30)).toEqual({ burst: '773.7' })
})

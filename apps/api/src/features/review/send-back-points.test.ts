import { expect, test } from 'vitest'
import { sentBackPoints, sentBackTexts } from './send-back-points.ts'

const revision = {
  points: [{ key: 'void:1', sentence: '12-1 (7KD2), Sand adhesion is void: Felt tore.' }],
  specimens: [{ code: '7KD2', label: '12-1', method: 'Sand adhesion' }],
}

test('a point, a specimen and the recommendation are kept in words, each once', () => {
  expect(sentBackPoints(['recommendation', 'void:1', '7KD2', 'void:1'], revision)).toEqual([
    { key: 'recommendation', text: 'The recommendation' },
    { key: 'void:1', text: '12-1 (7KD2), Sand adhesion is void: Felt tore.' },
    { key: '7KD2', text: '12-1 (7KD2), Sand adhesion' },
  ])
})

test('what the revision does not have is refused by its name', () => {
  for (const key of ['void:2', 'ZZZZ', 'Sand adhesion is void'])
    expect(() => sentBackPoints(['void:1', key], revision)).toThrow(`“${key}” is no point`)
})

test('what was kept is read as it stood', () => {
  const kept = JSON.stringify(['recommendation', { key: 'void:1', text: '12-1 is void.' }])
  expect(sentBackTexts(kept)).toEqual(['recommendation', '12-1 is void.'])
})

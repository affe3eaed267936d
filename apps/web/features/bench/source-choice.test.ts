import type { DrawSource } from '@curebook/contract/bench'
import { describe, expect, test } from 'vitest'
import {
  beyond,
  correctedSource,
  itemWithLabel,
  openItems,
  sourceOf,
  stateOfItem,
  type SourceItem,
} from './source-choice.ts'

const item = (code: string, more: Partial<SourceItem> = {}): SourceItem => ({
  id: code.toLowerCase(),
  code,
  kind: 'bag',
  fraction: null,
  leftG: '800',
  overG: null,
  here: true,
  ...more,
})
const aggregate: DrawSource = {
  component: 'aggregate',
  items: [
    item('7KD2', { kind: 'sample', leftG: '23400' }),
    item('7KD4'),
    item('7KD5', { leftG: '0' }),
    item('7KD7', { here: false, leftG: null }),
  ],
  inUseId: null,
}

describe('the bag that a component is weighed out of', () => {
  test('is asked for where something was set apart of the sample', () => {
    const water: DrawSource = { component: 'water', items: [item('7KE2', { kind: 'sample' })], inUseId: null }
    expect(sourceOf([aggregate, water], 'aggregate')).toBe(aggregate)
    expect(sourceOf([aggregate, water], 'water')).toBeUndefined()
    expect(sourceOf([aggregate], undefined)).toBeUndefined()
  })

  test('is one that is here with something in it, or the one chosen', () => {
    expect(openItems(aggregate, '').map(({ code }) => code)).toEqual(['7KD2', '7KD4'])
    expect(openItems(aggregate, '7kd5').map(({ code }) => code)).toEqual(['7KD2', '7KD4', '7KD5'])
  })

  test('is found by its label, used up or gone included, which is said', () => {
    expect(itemWithLabel(aggregate, ' 7kd4 ')?.code).toBe('7KD4')
    expect(itemWithLabel(aggregate, '7KE9')).toBeUndefined()
    expect(['7KD4', '7KD5', '7KD7'].map((code) => stateOfItem(itemWithLabel(aggregate, code)!))).toEqual([
      'open',
      'used-up',
      'not-here',
    ])
  })

  test('is said by a correction where it was another, or none', () => {
    expect([correctedSource('a', 'a'), correctedSource(undefined, '')]).toEqual([undefined, undefined])
    expect([correctedSource('a', 'b'), correctedSource('a', '')]).toEqual(['b', null])
  })

  test('holds less than is weighed: by how much', () => {
    expect(beyond(item('7KD4'), '812.4')).toBe('12.4')
    expect(beyond(item('7KD4'), '800')).toBeUndefined()
    expect(beyond(item('7KD4', { leftG: null }), '812.4')).toBeUndefined()
    expect(beyond(undefined, '812.4')).toBeUndefined()
  })
})

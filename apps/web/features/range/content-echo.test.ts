import type { RangeEnd, RangeView } from '@curebook/contract/range'
import { describe, expect, test } from 'vitest'
import { contentEcho } from './content-echo.ts'

const end = (residualPercent: string): RangeEnd => ({
  kind: 'crossing',
  residualPercent,
  emulsionPercent: null,
  setBy: 'a curve',
  sentence: '',
  calculation: null,
})
const view: Pick<RangeView, 'residue' | 'minimum' | 'maximum' | 'testedSpan' | 'band' | 'flags'> = {
  residue: { value: '62.6', unit: '%', source: 'own test' },
  minimum: end('6.905'),
  maximum: end('8.280'),
  testedSpan: { from: '6.26', to: '8.764' },
  band: { from: '5.5', to: '10.5', source: 'the contract' },
  flags: [],
}

describe('the echo of a recommended content', () => {
  test('is residual binder by the residue of the design, with either decimal sign', () => {
    expect(contentEcho({ emulsion: '12,0', tolerance: '' }, view, '.')).toEqual({
      residual: '7.512',
      withTolerance: null,
      remarks: [],
    })
  })
  test('holds the span of the tolerance', () => {
    expect(contentEcho({ emulsion: '12.0', tolerance: '0.5' }, view, '.')?.withTolerance).toEqual({
      from: '7.012',
      to: '8.012',
    })
  })
  test('says when the content or its tolerance leaves the acceptable range, and refuses nothing', () => {
    expect(contentEcho({ emulsion: '10.5', tolerance: '0.5' }, view, '.')?.remarks[0]).toMatch(
      /outside the acceptable range/,
    )
    expect(contentEcho({ emulsion: '12.0', tolerance: '0.9' }, view, '.')?.remarks[0]).toMatch(/with its tolerance/)
  })
  test('says nothing of the range where there is none to leave, but that no content meets every limit', () => {
    const none = { ...view, flags: [{ key: 'no-range', sentence: '' }] }
    expect(contentEcho({ emulsion: '12.0', tolerance: '0.5' }, none, '.')?.remarks).toEqual([
      expect.stringMatching(/no acceptable range/),
    ])
  })
  test('is silent until a number is typed, and without a residue', () => {
    expect(contentEcho({ emulsion: '12.', tolerance: '' }, view, '.')).toBeNull()
    expect(contentEcho({ emulsion: '12', tolerance: '' }, { ...view, residue: null }, '.')).toBeNull()
  })
})

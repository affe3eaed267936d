import { expect, test } from 'vitest'
import { checkCalculation } from '../procedure/calculation-checker.ts'
import type { EditionParameters, ObservedReading } from '../procedure/declaration.ts'
import { compatibilityCup } from './compatibility-cup.ts'

const { parameters } = compatibilityCup.editions[0]!
const sound = { mixing: 'even', coating: 'whole', segregation: 'none', section: 'even' }
const steps: Record<string, string> = { mixing: 'mix', coating: 'mix', segregation: 'stand', section: 'split' }

function cup(seen: Partial<typeof sound>, changed: EditionParameters = parameters) {
  const readings = Object.entries({ ...sound, ...seen }).map(([key, value]): ObservedReading => {
    return { id: `id-${key}`, step: steps[key]!, key, repeat: 1, value }
  })
  return compatibilityCup.evaluate(readings, { parameters: changed, factors: [], inputs: {} }).choices![0]!
}

test('nothing amiss passes', () => {
  expect(cup({})).toMatchObject({ key: 'verdict', choice: 'pass', findings: [] })
})

test.each([{ mixing: 'broke' }, { coating: 'bare' }, { segregation: 'marked' }, { section: 'layered' }])(
  'one fault fails: %o',
  (fault) => {
    expect(cup(fault).choice).toBe('fail')
  },
)

test('what is no fault and not quite right passes with a sentence each', () => {
  expect(cup({ mixing: 'stiff', segregation: 'slight' })).toMatchObject({
    choice: 'pass',
    findings: ['Mixing: stiffens, still mixes.', 'Segregation in the cup: slight.'],
  })
})

test('the working names every reading with the fault it counts as, and holds', () => {
  const { calculation } = cup({ coating: 'bare', section: 'layered' })
  expect(calculation.lines.map(({ symbol, value }) => [symbol, value])).toEqual([
    ['mixing', '0'],
    ['coating', '1'],
    ['segregation', '0'],
    ['section', '1'],
    ['most', '0'],
    ['faults', '2'],
  ])
  expect(calculation.lines[1]).toMatchObject({
    name: 'Coating: bare aggregate',
    input: { kind: 'reading', id: 'id-coating' },
  })
  expect(checkCalculation(calculation)).toEqual([])
})

test('how many faults pass is the edition’s', () => {
  const lenient = { ...parameters, 'faults-most': { ...parameters['faults-most']!, value: '1' } }
  expect(cup({ section: 'layered' }, lenient).choice).toBe('pass')
  expect(cup({ section: 'layered', coating: 'bare' }, lenient).choice).toBe('fail')
})

import { describe, expect, it } from 'vitest'
import { builtInReferenceCases } from '../reference-cases/built-in.ts'
import { builtInMethods, methodByKey } from './catalogue.ts'

describe('declared results', () => {
  it.each(builtInReferenceCases.flatMap(({ method, cases }) => cases.map((item) => ({ method, item }))))(
    'names every result of $method as its evaluation does: $item.title',
    ({ method: key, item }) => {
      const method = methodByKey(builtInMethods, key)!
      const { results } = method.evaluate(
        item.readings.map((reading, index) => ({ id: String(index), repeat: 1, ...reading })),
        {
          parameters: method.editions[0]!.parameters,
          factors: (item.factors ?? []).map((factor) => ({ id: factor.unit, source: '', ...factor })),
          inputs: Object.fromEntries(
            Object.entries(item.inputs ?? {}).map(([name, input]) => [name, { id: name, source: '', ...input }]),
          ),
        },
      )
      for (const { key: result, unit, label, displayDecimals } of results) {
        const declared = method.results.find(
          (candidate) => candidate.key === result && (candidate.unit ?? unit) === unit,
        )
        expect(declared).toMatchObject({ label, displayDecimals })
      }
    },
  )
})

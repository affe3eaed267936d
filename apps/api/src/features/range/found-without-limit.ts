import type { ResultBrief } from '@curebook/contract/bench'
import type { SpecimenRow } from '@curebook/contract/designs'
import type { ReadyPanel } from '@curebook/contract/panel-tests'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { answering } from '@curebook/trade/specification/enterable'
import { panelClassValues, panelTestValues } from '@curebook/trade/specification/panel-tests'
import type { Limit } from '@curebook/trade/specification/specification'

type Property = Pick<Limit, 'property' | 'soak' | 'label'>
type Found = ReadyPanel['tests'][number]['properties'][number]['found'][number]
type Work = {
  readonly methods: readonly MethodDeclaration[]
  readonly specimens: readonly SpecimenRow[]
  readonly results: readonly (ResultBrief & { readonly testId: string })[]
}

/**
 * What finished tests found of a property that the specification holds no limit for: one line for each method and content,
 * with the mean or the classes, in the unit that the method declares. Nothing is judged.
 */
export function foundWithoutLimit(property: Property, { methods, specimens, results }: Work): Found[] {
  return answering(property, methods).flatMap(({ method, result: key, passes }) => {
    const done = specimens.filter(({ methodKey, state }) => methodKey === method.key && state === 'done')
    const unit = method.results.find((declared) => declared.key === key)?.unit ?? ''
    const points = done.flatMap((specimen) =>
      results
        .filter((result) => result.testId === specimen.testId && result.key === key)
        .map(({ id, value, unit: own, choice }) => {
          const { testId, code, label, emulsionPercent, methodKey } = specimen
          return {
            ...{ testId, code, label, emulsionPercent, methodKey, limitKey: '', resultId: id },
            value,
            own,
            choice,
          }
        }),
    )
    const numbers = points.flatMap(({ value, own, choice: _, ...point }) =>
      value === null || own === null ? [] : [{ ...point, value, unit: own }],
    )
    const classes = points.flatMap(({ choice, value: _, own: __, ...point }) =>
      choice === null ? [] : [{ ...point, words: choice, passes: passes.includes(choice) }],
    )
    const contents = [...new Set(points.map(({ emulsionPercent }) => emulsionPercent))]
    return contents.flatMap((content): Found[] => {
      const at = <P extends { emulsionPercent: string | null }>(all: readonly P[]) =>
        all.filter(({ emulsionPercent }) => emulsionPercent === content)
      const asked = { content, methodKeys: [method.key] }
      const limit = { key: '', label: property.label, unit, sense: 'declared' as const, value: null }
      const common = { methodKey: method.key, emulsionPercent: content }
      return [
        ...panelTestValues(limit, at(numbers), asked).map(({ n, value, unit: of }) => ({
          ...{ ...common, n, value, unit: of, classes: null },
        })),
        ...panelClassValues(limit, at(classes), asked).map(({ n, words }) => ({
          ...{ ...common, n, value: null, unit: null, classes: words },
        })),
      ]
    })
  })
}

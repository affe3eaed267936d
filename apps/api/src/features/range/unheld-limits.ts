import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Limit, Specification } from '@curebook/trade/specification/specification'

/** What stands in place of a source where the specification says nothing of a property. */
export const notNamed = 'not named by the specification'

/**
 * A line of the panel for each property that finished tests found and the specification does not name, in the order of the
 * methods: asked for by nobody, and found all the same, so that it is not left to the tables of specimens alone. No limit is
 * held in it and nothing is judged by it.
 */
export function unheldLimits(
  found: readonly { readonly methodKey: string; readonly resultKey: string; readonly unit: string | null }[],
  { limits }: Pick<Specification, 'limits'>,
  methods: readonly MethodDeclaration[],
): readonly Limit[] {
  const lines = methods.flatMap(({ key: methodKey, name, answers, results }) =>
    answers.flatMap(({ property, soak = null, result, passes }): Limit[] => {
      const row = found.find((one) => one.methodKey === methodKey && one.resultKey === result)
      if (!row || limits.some((limit) => limit.property === property && limit.soak === soak)) return []
      const plain = results.find(({ key }) => key === result)?.label ?? result
      // One name for two properties would be no name: mix time at the temperature of the limit, and at one of the job.
      const isTaken = limits.some(({ label }) => label === plain) || isSharedLabel(plain, property, methods)
      const label = isTaken ? `${plain}: ${name}` : plain
      return [
        {
          ...{
            key: `unheld:${property}${soak === null ? '' : `:${soak}`}`,
            property,
            label,
            soak,
            unit: row.unit ?? '',
          },
          // A class that a method counts as passing passes nothing that nobody asks for.
          sense: passes ? 'declared' : 'max',
          ...{ traffic: null, value: null, usValue: null, usUnit: null, condition: null },
          ...{ rounding: 'none', decisionRule: 'simple acceptance', source: notNamed, certainty: 'common practice' },
          ...{ alsoPublished: [], changedFrom: null, changeReason: null },
        },
      ]
    }),
  )
  return lines.filter(({ key }, index) => lines.findIndex((other) => other.key === key) === index)
}

/** Whether another property is answered under the same words. */
function isSharedLabel(label: string, property: string, methods: readonly MethodDeclaration[]): boolean {
  return methods.some(({ answers, results }) =>
    answers.some(
      (answer) => answer.property !== property && results.find(({ key }) => key === answer.result)?.label === label,
    ),
  )
}

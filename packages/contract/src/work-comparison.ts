import { alike, isSaid, number, rowOf, text } from './compared-value.ts'
import type { ComparedPart } from './compared.ts'
import { compareRanges, type ComparedRange } from './design-comparison.ts'
import type { SignedContent } from './signed-content.ts'

type Work = Pick<SignedContent, 'specimens' | 'enteredResults'>

/** Entered values and every result of every specimen, as signed beside as they stand. */
export function compareWork(signed: Work, now: Work): ComparedPart[] {
  const typed = (value: Work['enteredResults'][number] | undefined) => text(value && `${value.typed} ${value.unit}`)
  const entered = alike(signed.enteredResults, now.enteredResults, ({ key }) => key).map(([one, other]) =>
    rowOf('entered', typed(one), typed(other), { label: (one ?? other)?.label ?? '' }),
  )
  const results = alike(signed.specimens, now.specimens, ({ code }) => code).flatMap(([one, other]) => {
    const specimen = `${(one ?? other)?.label ?? ''} (${(one ?? other)?.code ?? ''})`
    return [
      rowOf('state', text(one?.state), text(other?.state), { specimen }),
      ...alike(one?.results ?? [], other?.results ?? [], ({ key, unit }) => `${key} ${unit}`).map(([was, is]) =>
        rowOf('result', valueOf(was), valueOf(is), { specimen, label: (was ?? is)?.label ?? '' }),
      ),
    ]
  })
  return [
    { key: 'entered', rows: entered },
    { key: 'results', rows: results.filter(isSaid) },
  ]
}

/** The same with means, range and panel, of content that an approval is of. */
export function compareSigned(signed: SignedContent, now: SignedContent): ComparedPart[] {
  return [...compareWork(signed, now), ...compareRanges(rangeOf(signed), rangeOf(now))]
}

/** Parts without the rows in which nothing differs, and none that would be empty. */
export function onlyDiffering(parts: readonly ComparedPart[]): ComparedPart[] {
  return parts.flatMap(({ key, rows }) => {
    const differing = rows.filter(({ difference }) => difference !== 'same')
    return differing.length === 0 ? [] : [{ key, rows: differing }]
  })
}

function rangeOf({ range, panel, curves }: SignedContent): ComparedRange {
  const { minimum, maximum, midpoint, sentence } = range
  return { minimum, maximum, sentence, panel, curves, midpoint: midpoint === '' ? null : { residualPercent: midpoint } }
}

function valueOf(result: SignedContent['specimens'][number]['results'][number] | undefined) {
  if (!result) return null
  return result.value === '' ? text(result.refusal) : number(result.value, result.unit, 1)
}

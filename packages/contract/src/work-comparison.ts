import { alike, isSaid, number, rowOf, text } from './compared-value.ts'
import type { ComparedPart } from './compared.ts'
import { compareRanges, type ComparedRange } from './design-comparison.ts'
import type { SignedContent } from './signed-content.ts'

type Work = Pick<SignedContent, 'specimens' | 'enteredResults' | 'gradation'>

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
  const sieves = alike(signed.gradation?.sieves ?? [], now.gradation?.sieves ?? [], ({ size }) => size).map(
    ([one, other]) =>
      rowOf('entered', text(one && `${one.passing} %`), text(other && `${other.passing} %`), {
        label: `Gradation, passing ${(one ?? other)?.size ?? ''} mm`,
      }),
  )
  return [
    { key: 'entered', rows: [...entered, ...sieves] },
    { key: 'results', rows: results.filter(isSaid) },
  ]
}

/**
 * The same with means, range and panel, of content that an approval is of. Content signed earlier is held against as much as
 * it holds: what is said otherwise or beside it only since then is no change of the record.
 */
export function compareSigned(signed: SignedContent, now: SignedContent): ComparedPart[] {
  const { gradation, ...rest } = now
  const held = signed.gradation === undefined || gradation === undefined ? rest : now
  const panel = signed.panel.map((row) => reworded(row, now.panel))
  const told = { ...now, panel: now.panel.filter((row) => !isUnasked(row) || panel.some(({ key }) => key === row.key)) }
  return [...compareWork(signed, held), ...compareRanges(rangeOf({ ...signed, panel }), rangeOf(told))]
}

/** A line for what nobody asks for stands in no content signed before 2026-11-29; its results stand in the specimens. */
const isUnasked = ({ limitSource, certainty }: SignedContent['panel'][number]) => limitSource !== '' && certainty === ''

/** Where a contract took a limit out, content signed before 2026-11-28 calls "undecided" or "not tested" what holds no limit. */
function reworded(row: SignedContent['panel'][number], now: SignedContent['panel']): SignedContent['panel'][number] {
  const other = now.find(({ key }) => key === row.key)
  const isSameRow = other !== undefined && other.value === row.value && other.limit === row.limit
  const isOnlyWords =
    other?.verdict === 'no limit held' && (row.verdict === 'undecided' || row.verdict === 'not tested')
  return isSameRow && isOnlyWords ? { ...row, verdict: other.verdict } : row
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

import type { SpecimenRow } from '@curebook/contract/designs'
import { outcomeStandsSql } from '#features/bench/work-record.service'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { RowsSql } from '#platform/sql-rows'
import { spanWords } from '#platform/span-words'

/** A window that was met late where that opens no deviation: recorded, to be seen and reported. */
export type LateFinding = {
  readonly id: string
  readonly testId: string
  /** "Dry back: 2 h 10 min past the end of its window; kept as a finding" */
  readonly text: string
}

type LateWindow = { id: string; testId: string; methodKey: string; windowKey: string; marginS: number }

/** Late findings of these tests as the windows stand judged, in the order of the acts. */
export async function findLateFindings(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  testIds: readonly string[],
): Promise<LateFinding[]> {
  const rows = await sql.rows<LateWindow>(
    `select w.id, w.test_id as "testId", t.method_key as "methodKey", w.window_key as "windowKey", w.margin_s as "marginS"
       from window_outcome w join test_event t on t.lab_id = w.lab_id and t.id = w.test_id
      where w.lab_id = $1::uuid and w.test_id = any($2::uuid[]) and w.outcome = 'late' and w.margin_s is not null and ${outcomeStandsSql('w')}
      order by w.closes_at, w.id`,
    [sql.actor.labId, testIds],
  )
  return rows.flatMap(({ id, testId, methodKey, windowKey, marginS }) => {
    const window = methodByKey(methods, methodKey)?.windows.find(({ key }) => key === windowKey)
    return window?.late === 'finding' ? [{ id, testId, text: findingWords(window.label, marginS) }] : []
  })
}

/** Findings of one specimen: of its test and of its batch. */
export function findingsOf(
  { testId, batchTestId }: Pick<SpecimenRow, 'testId' | 'batchTestId'>,
  findings: readonly LateFinding[],
): readonly LateFinding[] {
  return findings.filter((finding) => finding.testId === testId || finding.testId === batchTestId)
}

function findingWords(label: string, marginSeconds: number): string {
  return `${label}: ${spanWords(Math.abs(marginSeconds))} past the end of its window; kept as a finding`
}

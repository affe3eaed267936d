import type { SpecimenRow } from '@curebook/contract/designs'
import type { LaboratoryTransaction } from '#platform/laboratory'
import type { Canonical } from '#platform/canonical-json'
import { type DesignContext, entryOf } from './design-context.ts'
import { type RevisionRow, updateRevision } from './designs.repository.ts'
import { insertPlanned, type PlanRows } from './plan.repository.ts'
import { specimensOf } from './specimen-rows.ts'

/** Rows of one specimen, and what the ledger is told of it. */
export type PlannedRows = Omit<PlanRows, 'mixes'> & { readonly summary: { readonly test: string } & Summary }
type Summary = Readonly<Record<string, string>>

/**
 * What every plan ends in: its rows are written, a draft goes into work, the entry says what was made and for what, and the
 * specimens made are the answer.
 * @param about what was planned, in the ledger's words
 */
export async function recordPlan(
  context: DesignContext,
  tx: LaboratoryTransaction,
  revision: RevisionRow,
  planned: readonly PlannedRows[],
  about: Readonly<Record<string, Canonical>>,
): Promise<{ items: SpecimenRow[]; next: null }> {
  await updateRevision(tx, revision.id, { state: revision.state === 'draft' ? 'in-work' : revision.state })
  await insertPlanned(tx, joined(planned))
  const { topics, ...entry } = entryOf(revision)
  tx.record({
    action: 'design:plan',
    subjectKind: 'design-revision',
    subjectId: revision.id,
    ...entry,
    topics: [...topics, 'schedule', 'bench'],
    content: { design: revision.designId, ...about, specimens: planned.map(({ summary }) => summary) },
  })
  const made = new Set(planned.map(({ summary }) => summary.test))
  const items = await specimensOf(context, tx, revision.designId)
  return { items: items.filter(({ testId }) => made.has(testId)), next: null }
}

/** The rows of several specimens, table by table. */
function joined(planned: readonly PlannedRows[]): Omit<PlanRows, 'mixes'> {
  return {
    items: planned.flatMap(({ items }) => items),
    parents: planned.flatMap(({ parents }) => parents),
    tests: planned.flatMap(({ tests }) => tests),
    standings: planned.flatMap(({ standings }) => standings),
    dues: planned.flatMap(({ dues }) => dues),
  }
}

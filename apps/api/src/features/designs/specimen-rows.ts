import type { SpecimenRow, TestState } from '@curebook/contract/designs'
import { methodByKey } from '@curebook/trade/methods/catalogue'
import type { LaboratoryTransaction } from '#platform/laboratory'
import type { DesignContext } from './design-context.ts'

type Row = Omit<SpecimenRow, 'methodName' | 'stepTitle' | 'assignee'> & {
  stepKey: string | null
  batchState: string | null
  batchStepKey: string | null
  assigneeId: string | null
  assigneeName: string | null
  assigneeInitials: string | null
}

/**
 * Every specimen of a design up to a revision (all without), by content, method and replicate. Tests belong to the revision
 * in which they were made; a later one reads them, so that nothing is tested twice.
 */
export async function specimensOf(
  { methods }: Pick<DesignContext, 'methods'>,
  tx: LaboratoryTransaction,
  designId: string,
  upTo?: number,
): Promise<SpecimenRow[]> {
  const titleOf = (methodKey: string, stepKey: string | null) =>
    methodByKey(methods.declarations, methodKey)?.steps.find(({ key }) => key === stepKey)?.title ?? null
  return (await findSpecimens(tx, designId, upTo ?? 2_147_483_647)).map(
    ({ stepKey, batchState, batchStepKey, assigneeId, assigneeName, assigneeInitials, ...row }) => ({
      ...row,
      state: row.state as TestState,
      methodName: methodByKey(methods.declarations, row.methodKey)?.name ?? row.methodKey,
      // The batch comes first: until it is cast, nothing can be done to the specimen.
      stepTitle:
        batchState === 'waiting' || batchState === 'in-work'
          ? titleOf('batch', batchStepKey)
          : titleOf(row.methodKey, stepKey),
      assignee:
        assigneeId === null
          ? null
          : { membershipId: assigneeId, name: assigneeName ?? '', initials: assigneeInitials ?? '' },
    }),
  )
}

function findSpecimens({ prisma, actor }: LaboratoryTransaction, designId: string, upTo: number): Promise<Row[]> {
  return prisma.$queryRaw<Row[]>`
    select i.id as "itemId", i.code, t.label, i.form, t.id as "testId", coalesce(b.id, t.id) as "batchTestId", t.method_key as "methodKey",
           t.mix_id as "mixId", m.emulsion_percent_text as "emulsionPercent", t.replicate, t.purpose, n.state,
           n.step_key as "stepKey", bn.state as "batchState", bn.step_key as "batchStepKey",
           a.id as "assigneeId", a.name as "assigneeName", a.initials as "assigneeInitials",
           replaced.label as replaces, void.note as "voidReason",
           exists (select from slot_now s where s.lab_id = t.lab_id and s.test_id in (t.id, coalesce(b.id, t.id)) and not s.counts) as waits
      from design_revision r
      join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id
      join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
      join item i on i.lab_id = t.lab_id and i.id = t.item_id and i.kind = 'specimen'
      left join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
      left join lateral (
        select b.lab_id, b.id from item_parent cast_from
          join test_event b on b.lab_id = cast_from.lab_id and b.item_id = cast_from.parent_id and b.method_key = 'batch'
         where cast_from.lab_id = i.lab_id and cast_from.child_id = i.id limit 1
      ) b on true
      left join test_now bn on bn.lab_id = b.lab_id and bn.test_id = b.id
      left join membership a on a.lab_id = n.lab_id and a.id = n.assignee_id
      left join test_replacement taken on taken.lab_id = t.lab_id and taken.spare_test_id = t.id
      left join test_event replaced on replaced.lab_id = taken.lab_id and replaced.id = taken.void_test_id
      left join step_event void on void.lab_id = t.lab_id and void.test_id = t.id and void.kind = 'void' and void.supersedes_id is null
     where r.lab_id = ${actor.labId}::uuid and r.design_id = ${designId}::uuid and r.number <= ${upTo}::int
     order by m.emulsion_percent nulls last, t.method_key, t.replicate, t.at, t.id`
}

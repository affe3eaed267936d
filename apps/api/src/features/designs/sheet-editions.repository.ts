import type { LaboratoryTransaction } from '#platform/laboratory'

/** The editions that a batch sheet is made by, as JSON of their parameters: the method's own, and the batch's. */
export type SheetEditions = { methodKey: string; content: string; own: string; batch: string; testIds: string[] }

/**
 * By which editions the batches of each content and method of a design are weighed: those that its tests were planned under,
 * the first planned in front, from the tests of this revision and, where it has none there, of the newest before it: a later
 * revision's mixes are copies with ids of their own. Void specimens speak only where no other stands.
 */
export function findSheetEditions(
  { prisma, actor }: LaboratoryTransaction,
  { designId, number }: { designId: string; number: number },
): Promise<SheetEditions[]> {
  return prisma.$queryRaw<SheetEditions[]>`
    with made as (
      select r.number, t.id, t.method_key, t.at, t.edition_id, m.emulsion_percent, b.edition_id as batch_edition_id,
             n.state not in ('void', 'replaced') as stands,
             max(r.number) over content as newest,
             bool_or(n.state not in ('void', 'replaced')) over (content_of_revision) as any_stands
        from design_revision r
        join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id
        join test_now n on n.lab_id = t.lab_id and n.test_id = t.id
        join mix m on m.lab_id = t.lab_id and m.id = t.mix_id
        join item_parent l on l.lab_id = t.lab_id and l.child_id = t.item_id
        join test_event b on b.lab_id = l.lab_id and b.item_id = l.parent_id and b.method_key = 'batch'
       where r.lab_id = ${actor.labId}::uuid and r.design_id = ${designId}::uuid and r.number <= ${number}::int
         and t.method_key <> 'batch'
      window content as (partition by t.method_key, m.emulsion_percent),
             content_of_revision as (partition by t.method_key, m.emulsion_percent, r.number)
    )
    select made.method_key as "methodKey", made.emulsion_percent::text as content,
           own.parameters as own, batch.parameters as batch, array_agg(made.id order by made.at, made.id)::text[] as "testIds"
      from made
      join method_edition own on own.lab_id = ${actor.labId}::uuid and own.id = made.edition_id
      join method_edition batch on batch.lab_id = ${actor.labId}::uuid and batch.id = made.batch_edition_id
     where made.number = made.newest and (made.stands or not made.any_stands)
     group by made.method_key, made.emulsion_percent, own.id, own.parameters, batch.id, batch.parameters
     order by made.method_key, made.emulsion_percent, min(made.at), min(made.id::text)`
}

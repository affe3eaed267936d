import type { LaboratorySettings, LaboratoryView, UpdateLaboratory } from '@curebook/contract/laboratory'
import type { Actor } from '#platform/actor'
import { editOf, repeatedEdit } from '#platform/edit'
import type { Laboratory } from '#platform/laboratory'
import { toLaboratoryView, toSettings } from './laboratory.mapper.ts'
import { findLaboratory, updateLaboratory } from './laboratory.repository.ts'

export type LaboratoryService = ReturnType<typeof createLaboratoryService>

/** A laboratory's settings, and what the signed-in person may do in it. */
export function createLaboratoryService({ laboratory }: { laboratory: Laboratory }) {
  return {
    read: (actor: Actor): Promise<LaboratoryView> =>
      laboratory.inLaboratory(actor, async (tx) => toLaboratoryView(await findLaboratory(tx), actor)),

    /** The settings alone, for other features (zone, language, decimal sign). */
    settings: (actor: Actor): Promise<LaboratorySettings> =>
      laboratory.inLaboratory(actor, async (tx) => toSettings(await findLaboratory(tx))),

    update: (actor: Actor, version: number, changes: UpdateLaboratory): Promise<LaboratoryView> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const subject = { subjectKind: 'laboratory', subjectId: actor.labId, action: 'laboratory:update' }
        const edit = editOf(subject, version, changes)
        const before = await findLaboratory(tx)
        if (!(await updateLaboratory(tx, version, changes)))
          return repeatedEdit(tx, edit, toLaboratoryView(await findLaboratory(tx), actor))
        const after = await findLaboratory(tx)
        tx.record({
          ...edit,
          topics: ['laboratory'],
          content: { before: toSettings(before), after: toSettings(after) },
        })
        return toLaboratoryView(after, actor)
      }),
  }
}

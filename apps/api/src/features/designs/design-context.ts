import type { Design } from '@curebook/contract/designs'
import type { AttachmentsService } from '#features/attachments/attachments.service'
import type { MaterialsService } from '#features/materials/materials.service'
import type { MethodsService } from '#features/methods/methods.service'
import type { ProjectSpecificationsService } from '#features/project-specifications/project-specifications.service'
import type { SpecificationsService } from '#features/specifications/specifications.service'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { toDesign } from './designs.mapper.ts'
import { countTests, findRevision, findRevisionNumbers, lockDesign, type RevisionRow } from './designs.repository.ts'

/** Told in the transaction in which a value entered on a revision (residue, moisture) changed. */
export type InputListener = (tx: LaboratoryTransaction, revisionId: string) => Promise<void>

/** What the acts on a design stand on. */
export type DesignContext = {
  laboratory: Laboratory
  methods: MethodsService
  materials: MaterialsService
  specifications: SpecificationsService
  projectSpecifications: ProjectSpecificationsService
  attachments: AttachmentsService
  inputListeners: InputListener[]
}

/** @throws AppError `not-found` */
export async function revisionIn(tx: LaboratoryTransaction, designId: string, number?: number): Promise<RevisionRow> {
  const row = await findRevision(tx, designId, number)
  if (!row) throw notFound(number === undefined ? 'design' : 'revision of this design')
  return row
}

/** The newest revision, held until the end of the transaction. @throws AppError `not-found` */
export async function lockedRevision(tx: LaboratoryTransaction, designId: string): Promise<RevisionRow> {
  await lockDesign(tx, designId)
  return revisionIn(tx, designId)
}

/** A revision with all that stands beside it. */
export async function designOf(
  { materials, specifications, projectSpecifications }: DesignContext,
  tx: LaboratoryTransaction,
  row: RevisionRow,
): Promise<Design> {
  const ids = [row.aggregateItemId, row.emulsionItemId, row.fillerItemId, row.additiveItemId, row.waterItemId].filter(
    (id) => id !== null,
  )
  const specification = row.specificationId === null ? null : await specifications.readIn(tx, row.specificationId)
  if (!specification) throw new Error(`Revision ${row.id} has no specification`)
  return toDesign(row, {
    specification,
    projectSpecification: await projectSpecifications.standingIn(tx, row.design.projectId, specification),
    materials: await materials.readIn(tx, ids),
    revisions: await findRevisionNumbers(tx, row.designId),
    counts: (await countTests(tx, [row.designId], row.number)).get(row.designId),
  })
}

/** What every entry about a design names. */
export function entryOf(row: Pick<RevisionRow, 'id' | 'designId' | 'design'>) {
  const { projectId } = row.design
  return { projectId, topics: [`design:${row.designId}`, `revision:${row.id}`, `project:${projectId}`] }
}

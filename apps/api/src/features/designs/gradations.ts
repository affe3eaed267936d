import type { EnterGradation, Gradation } from '@curebook/contract/gradations'
import { readGradation } from '@curebook/trade/specification/gradation'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField } from '#platform/problem'
import { dateOfDay } from '#platform/row-values'
import { type DesignContext, entryOf, lockedRevision } from './design-context.ts'
import { assertNotApproved } from './design-rules.ts'
import { type RevisionRow, updateRevision } from './designs.repository.ts'
import { toGradation } from './gradations.mapper.ts'
import {
  findGradation,
  findStandingGradation,
  insertGradation,
  type GradationRow,
  type NewGradationRow,
  type NewSieveRow,
} from './gradations.repository.ts'

/** Enters the gradation of the aggregate on the newest revision; a further one names the one it replaces, and why. */
export function enterGradation(context: DesignContext, actor: Actor, designId: string, input: EnterGradation) {
  return createOnce(context.laboratory, actor, {
    subjectKind: 'gradation',
    id: input.id,
    input: { design: designId, ...input },
    find: async (tx) => {
      const stored = await findGradation(tx, input.id)
      return stored && viewOf(tx, stored)
    },
    create: async (tx): Promise<Gradation> => {
      const revision = await lockedRevision(tx, designId)
      assertNotApproved(revision)
      const sieves = readSieves(input)
      if (input.observedOn > (await laboratoryToday(tx)))
        throw invalidField('observedOn', 'A gradation is found before it is entered: give today or an earlier day.')
      if (input.attachmentId !== null) await context.attachments.assertIn(tx, input.attachmentId, 'attachmentId')
      const replaced = await replacedBy(tx, revision, input)
      const rows = await insertGradation(tx, rowOf(tx, revision, input, replaced), sieves)
      // Whoever edits the design from what stood before is told that it changed.
      await updateRevision(tx, revision.id, {})
      tx.record({
        action: 'design:enter-gradation',
        subjectKind: 'gradation',
        subjectId: input.id,
        ...entryOf(revision),
        content: { design: designId, replaces: replaced?.id ?? null, reason: input.supersedes?.reason ?? null },
        rows,
      })
      return viewOf(tx, (await findGradation(tx, input.id))!)
    },
  })
}

/** What stands for a revision; null where none is entered. */
export async function gradationOf(
  tx: LaboratoryTransaction,
  designId: string,
  upTo: number,
): Promise<Gradation | null> {
  const row = await findStandingGradation(tx, designId, upTo)
  return row && viewOf(tx, row)
}

/** With what it replaced: the first of a revision took the place of what stood for the revision before. */
async function viewOf(tx: LaboratoryTransaction, row: GradationRow): Promise<Gradation> {
  const { designId, number } = row.designRevision
  return toGradation(row, row.supersedes ?? (await findStandingGradation(tx, designId, number - 1)))
}

function readSieves({ sieves }: EnterGradation): NewSieveRow[] {
  const read = readGradation(sieves)
  if (!read.ok) throw invalidField(`sieves.${read.row}.${read.field}`, read.message)
  return read.sieves.map(({ size, passing }, n) => ({
    n: n + 1,
    sizeText: size.typed,
    size: size.value,
    passingText: passing.typed,
    passing: passing.value,
  }))
}

/** The gradation that stands must be the one that is named, or none of both. */
async function replacedBy(
  tx: LaboratoryTransaction,
  revision: RevisionRow,
  sent: EnterGradation,
): Promise<GradationRow | null> {
  const row = await findStandingGradation(tx, revision.designId, revision.number)
  if ((row?.id ?? undefined) === sent.supersedes?.id) return row
  const sentence = row
    ? `A gradation stands, entered by ${row.by.name}. To replace it, name it and give the reason.`
    : 'No gradation is entered yet, so there is nothing to replace.'
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'sieves', message: sentence }],
    extra: { stored: row && (await viewOf(tx, row)), sent },
  })
}

const sources = { entered: 'Own test by hand', outside: 'Another laboratory', customer: 'Given by the client' } as const

/** A chain stays within its revision: the first of a new one names nothing, and keeps the reason why it differs. */
function rowOf(
  { actor, at }: LaboratoryTransaction,
  revision: RevisionRow,
  input: EnterGradation,
  replaced: GradationRow | null,
): NewGradationRow {
  const inChain = replaced?.designRevisionId === revision.id
  const orNull = (text: string) => (text === '' ? null : text)
  return {
    labId: actor.labId,
    id: input.id,
    designRevisionId: revision.id,
    madeBy: input.madeBy,
    methodName: input.method,
    methodEdition: orNull(input.edition),
    source: input.source === '' ? sources[input.madeBy] : input.source,
    laboratoryName: orNull(input.laboratoryName),
    observedBy: orNull(input.observedBy),
    observedOn: dateOfDay(input.observedOn),
    remark: orNull(input.remark),
    attachmentId: input.attachmentId,
    supersedesId: inChain ? replaced.id : null,
    reason: replaced ? (input.supersedes?.reason ?? null) : null,
    byId: actor.membershipId,
    at,
  }
}

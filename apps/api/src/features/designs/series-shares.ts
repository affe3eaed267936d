import type { LaboratoryTransaction } from '#platform/laboratory'
import { AppError } from '#platform/problem'
import { decimal } from '@curebook/trade/quantity/decimal'
import { type DesignContext, lockedRevision, revisionIn } from './design-context.ts'
import { assertOpen } from './design-rules.ts'
import { updateRevision } from './designs.repository.ts'
import { writeMixComponents } from './mix-components.ts'

export type MixShares = {
  readonly mixId: string
  readonly waterPercent: string
  readonly additivePercent: string
  readonly fillerPercent: string
}

/** Why the shares of a design's contents stand: a batch of theirs is begun. Null while none is. */
export async function sharesStandIn(
  { prisma, actor }: LaboratoryTransaction,
  designId: string,
): Promise<string | null> {
  const [begun] = await prisma.$queryRaw<{ label: string; code: string }[]>`
    select t.label, i.code
      from design_revision r
      join test_event t on t.lab_id = r.lab_id and t.design_revision_id = r.id and t.method_key = 'batch'
      join item i on i.lab_id = t.lab_id and i.id = t.item_id
     where r.lab_id = ${actor.labId}::uuid and r.design_id = ${designId}::uuid
       and (exists (select from reading x where x.lab_id = t.lab_id and x.test_id = t.id)
         or exists (select from step_event x where x.lab_id = t.lab_id and x.test_id = t.id))
     order by i.code limit 1`
  return begun
    ? `The batch of ${begun.label} (${begun.code}) is begun: from then on the shares of the series stand. Plan another content, or start another design.`
    : null
}

/**
 * Gives each content of the newest revision its water, additive and filler, with the batch sheets anew. Batches are held
 * meanwhile, so that none is begun from shares that change.
 */
export async function setShares(
  context: DesignContext,
  tx: LaboratoryTransaction,
  designId: string,
  shares: readonly MixShares[],
): Promise<void> {
  const { prisma, actor } = tx
  const revision = await lockedRevision(tx, designId)
  assertOpen(revision)
  if (shares.length === 0 && revision.mixes.length === 0) return
  await holdBatches(tx, designId)
  const stand = await sharesStandIn(tx, designId)
  if (stand !== null) throw new AppError('refused-by-rule', stand)
  refuseOthers(shares, new Set(revision.mixes.map(({ id }) => id)))
  for (const { mixId, waterPercent, additivePercent, fillerPercent } of shares)
    await prisma.mix.updateMany({
      where: { labId: actor.labId, id: mixId },
      data: {
        waterPercentText: waterPercent,
        waterPercent,
        additivePercentText: additivePercent,
        additivePercent,
        fillerPercentText: fillerPercent,
        fillerPercent,
        version: { increment: 1 },
      },
    })
  await updateRevision(tx, revision.id, {})
  await writeMixComponents(context, tx, await revisionIn(tx, designId))
  for (const tell of context.inputListeners) await tell(tx, revision.id)
}

/** Each content once, and no other; no share less than none or more than all. */
function refuseOthers(shares: readonly MixShares[], mixes: ReadonlySet<string>): void {
  const given = new Set(shares.map(({ mixId }) => mixId))
  const errors = shares.flatMap((share, index) =>
    (['waterPercent', 'additivePercent', 'fillerPercent'] as const).flatMap((key) =>
      decimal(share[key]).isNegative() || decimal(share[key]).gt(100)
        ? [{ path: `contents.${index}.${key}`, message: 'A share of dry aggregate is from 0 to 100 %.' }]
        : [],
    ),
  )
  if (given.size !== shares.length || given.size !== mixes.size || [...given].some((id) => !mixes.has(id)))
    errors.push({
      path: 'contents',
      message: 'Give the shares of each content of the series once: it has changed since this was opened.',
    })
  if (errors.length > 0) throw new AppError('invalid-input', errors[0]!.message, { errors })
}

async function holdBatches({ prisma, actor }: LaboratoryTransaction, designId: string): Promise<void> {
  await prisma.$queryRaw`
    select n.test_id from test_now n join test_event t on t.lab_id = n.lab_id and t.id = n.test_id
      join design_revision r on r.lab_id = t.lab_id and r.id = t.design_revision_id
     where n.lab_id = ${actor.labId}::uuid and r.design_id = ${designId}::uuid and t.method_key = 'batch'
     order by n.test_id for update of n`
}

import { partsOfMachine } from '@curebook/contract/machine-parts'
import type { FitPart, PartFitting, PartFittings } from '@curebook/contract/parts'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { tellTime } from '#platform/told-time'
import { findInstrument, lockInstrument } from './instruments.repository.ts'
import { toFittings } from './part-fittings.mapper.ts'
import { findFittings, insertFitting, lotNamed, markFitted } from './part-fittings.repository.ts'

export type PartFittingsService = ReturnType<typeof createPartFittingsService>

/** Lots of hose, tyre, felt and sand on the machines: what a run was made with is what was fitted when it began. */
export function createPartFittingsService({ laboratory }: { laboratory: Laboratory }) {
  const fittingOf = async (tx: LaboratoryTransaction, instrumentId: string, id: string): Promise<PartFitting | null> =>
    toFittings(await findFittings(tx, instrumentId)).find((fitting) => fitting.id === id) ?? null

  return {
    list: (actor: Actor, instrumentId: string): Promise<PartFittings> =>
      laboratory.inLaboratory(actor, async (tx) => {
        if (!(await findInstrument(tx, instrumentId))) throw notFound('instrument')
        return { items: toFittings(await findFittings(tx, instrumentId)), next: null }
      }),

    /** A lot goes on and the one before it comes off. An entry in error is superseded by name, with the reason. */
    fit: (actor: Actor, instrumentId: string, input: FitPart) =>
      createOnce(laboratory, actor, {
        subjectKind: 'part-fitting',
        id: input.id,
        input: { instrument: instrumentId, ...input, time: { ...input.time, sentAt: undefined } },
        find: (tx) => fittingOf(tx, instrumentId, input.id),
        create: async (tx) => {
          await lockInstrument(tx, instrumentId)
          const machine = await findInstrument(tx, instrumentId)
          if (!machine) throw notFound('instrument')
          if (!partsOfMachine[machine.kind]?.includes(input.kind))
            throw invalidField('kind', `${machine.code} carries no ${input.kind}. Choose the machine that does.`)
          const told = tellTime(input.time, tx.at)
          const hardness = readHardness(input.hardness)
          const before = toFittings(await findFittings(tx, instrumentId))
          refuseSuperseded(before, input)
          const { id: lotId } = await lotNamed(tx, input.kind, input.lot)
          const fitting = {
            id: input.id,
            instrumentId,
            partLotId: lotId,
            kind: input.kind,
            hardnessText: hardness && input.hardness,
            hardness,
            supersedesId: input.supersedes?.id ?? null,
            reason: input.supersedes?.reason ?? null,
          }
          await insertFitting(tx, fitting, told)
          const after = toFittings(await findFittings(tx, instrumentId))
          const on = onMachine(after, input)
          if (on?.id === input.id) await markFitted(tx, { instrumentId, kind: input.kind, lotId, hardness })
          tx.record({
            action: 'instrument:fit-part',
            subjectKind: 'part-fitting',
            subjectId: input.id,
            topics: ['instruments', `instrument:${instrumentId}`, 'bench', 'test'],
            content: {
              ...fitting,
              lot: input.lot,
              fittedAt: told.effectiveAt.toISOString(),
              before: onMachine(before, input)?.lot ?? null,
              on: on?.lot ?? null,
            },
          })
          return after.find(({ id }) => id === input.id)!
        },
      }),
  }
}

/** What is on now, of one kind: the latest that stands. */
function onMachine(fittings: readonly PartFitting[], { kind }: Pick<FitPart, 'kind'>): PartFitting | undefined {
  return fittings.find((fitting) => fitting.kind === kind && !fitting.superseded)
}

function readHardness(typed: string | null): string | null {
  if (typed === null || typed === '') return null
  const read = readTypedNumber(typed, { label: 'The hardness' })
  if (!read.ok) throw invalidField('hardness', read.message)
  if (decimal(read.value).lte(0)) throw invalidField('hardness', 'The hardness must be more than 0.')
  return read.value
}

function refuseSuperseded(fittings: readonly PartFitting[], sent: FitPart): void {
  if (!sent.supersedes) return
  const named = fittings.find(({ id, kind }) => id === sent.supersedes?.id && kind === sent.kind)
  if (!named) throw invalidField('supersedes', `No ${sent.kind} was entered here under this name.`)
  if (!named.superseded) return
  const sentence = `The entry of ${named.lot} was corrected meanwhile. Look at the list again.`
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'supersedes', message: sentence }],
    extra: { stored: named, sent },
  })
}

import type { InstrumentLine, InstrumentLines, SetInstrumentLine } from '@curebook/contract/instrument-lines'
import { learnLine } from '@curebook/trade/quantity/balance-line'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { toLine } from './instrument-lines.mapper.ts'
import { findLines, insertLine } from './instrument-lines.repository.ts'
import { findInstrument, lockInstrument } from './instruments.repository.ts'

export type InstrumentLinesService = ReturnType<typeof createInstrumentLinesService>

/** How balances send what they show. The form of a line is learnt from one example; the example is what is kept. */
export function createInstrumentLinesService({ laboratory }: { laboratory: Laboratory }) {
  const linesOf = async (tx: LaboratoryTransaction, instrumentId: string): Promise<InstrumentLine[]> =>
    (await findLines(tx, instrumentId)).map(toLine)
  const lineOf = async (tx: LaboratoryTransaction, instrumentId: string, id: string): Promise<InstrumentLine | null> =>
    (await linesOf(tx, instrumentId)).find((line) => line.id === id) ?? null

  return {
    list: (actor: Actor, instrumentId: string): Promise<InstrumentLines> =>
      laboratory.inLaboratory(actor, async (tx) => {
        if (!(await findInstrument(tx, instrumentId))) throw notFound('instrument')
        return { items: await linesOf(tx, instrumentId), next: null }
      }),

    /** An example that teaches nothing is refused with why; the one that stands is superseded by name, with the reason. */
    set: (actor: Actor, instrumentId: string, input: SetInstrumentLine) =>
      createOnce(laboratory, actor, {
        subjectKind: 'instrument-line',
        id: input.id,
        input: { instrument: instrumentId, ...input },
        find: (tx) => lineOf(tx, instrumentId, input.id),
        create: async (tx) => {
          await lockInstrument(tx, instrumentId)
          const instrument = await findInstrument(tx, instrumentId)
          if (!instrument) throw notFound('instrument')
          if (instrument.kind !== 'balance')
            throw invalidField('id', `${instrument.code} is no balance: only what a balance sends is read.`)
          const learnt = learnLine({ line: input.example, shown: input.shown })
          if (!learnt.ok) throw invalidField('example', learnt.message)
          const { supersedes, id, ...settings } = input
          refuseOther(await linesOf(tx, instrumentId), input, instrument.code)
          const line = {
            ...settings,
            id,
            instrumentId,
            supersedesId: supersedes?.id ?? null,
            reason: supersedes?.reason ?? null,
          }
          await insertLine(tx, line)
          tx.record({
            action: 'instrument:set-line',
            subjectKind: 'instrument-line',
            subjectId: id,
            topics: ['instruments', `instrument:${instrumentId}`, 'bench', 'test'],
            content: line,
          })
          return (await lineOf(tx, instrumentId, id))!
        },
      }),
  }
}

/** What a new one supersedes is what stands, and nothing else: somebody may have been quicker. */
function refuseOther(lines: readonly InstrumentLine[], sent: SetInstrumentLine, code: string): void {
  const stands = lines.find(({ superseded }) => !superseded)
  if (stands?.id === sent.supersedes?.id) return
  const sentence =
    stands === undefined
      ? `Nothing is entered yet of how ${code} sends.`
      : `How ${code} sends was entered meanwhile. Look at it again.`
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'supersedes', message: sentence }],
    extra: { stored: stands ?? null, sent },
  })
}

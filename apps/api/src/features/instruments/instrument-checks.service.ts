import { checksOfInstrument, checkUnits } from '@curebook/contract/instrument-check-kinds'
import type { AddCheck, CheckBounds, InstrumentCheck, InstrumentChecks } from '@curebook/contract/instrument-checks'
import { decimal } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import type { MethodsService } from '#features/methods/methods.service'
import type { Actor } from '#platform/actor'
import { digestOf } from '#platform/canonical-json'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { tellTime } from '#platform/told-time'
import { checkChartsOf } from './check-charts.ts'
import { toChartedCheck, toCheck } from './instrument-checks.mapper.ts'
import { findChecks, insertCheck } from './instrument-checks.repository.ts'
import { findInstrument, lockInstrument } from './instruments.repository.ts'

export type InstrumentChecksService = ReturnType<typeof createInstrumentChecksService>

/** Checks in daily use: what was read as typed, judged by nominal value and tolerance as they stood. */
export function createInstrumentChecksService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: MethodsService
}) {
  /** The load of the wheel as the edition in force states it. */
  async function loadBoundsIn(tx: LaboratoryTransaction): Promise<CheckBounds> {
    const { parameters } = await methods.editionInForceIn(tx, 'loaded-wheel-sand-adhesion')
    const [load, tolerance] = [parameters['wheel-load']!, parameters['wheel-load-tolerance']!]
    const clause = load.clause ? `, clause ${load.clause}` : ''
    return {
      nominal: load.value,
      tolerance: tolerance.value,
      unit: load.unit,
      source: `${load.source}${clause}`,
    }
  }
  const existing = async (tx: LaboratoryTransaction, id: string) => {
    const instrument = await findInstrument(tx, id)
    if (!instrument) throw notFound('instrument')
    return instrument
  }
  const checkOf = async (tx: LaboratoryTransaction, instrumentId: string, id: string) =>
    (await findChecks(tx, instrumentId, id)).flatMap(toCheck)[0] ?? null

  return {
    list: (actor: Actor, instrumentId: string): Promise<InstrumentChecks> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const { kind } = await existing(tx, instrumentId)
        const rows = await findChecks(tx, instrumentId)
        const items = rows.flatMap(toCheck)
        return {
          items: items.toSorted((a, b) => (a.checkedAt < b.checkedAt ? 1 : a.checkedAt > b.checkedAt ? -1 : 0)),
          loadBounds: kind === 'loaded-wheel' ? await loadBoundsIn(tx) : null,
          charts: checkChartsOf(rows.flatMap(toChartedCheck)),
          next: null,
        }
      }),

    /** A check that fails is kept like one that passes. An entry in error is superseded by name, with the reason. */
    add: (actor: Actor, instrumentId: string, input: AddCheck) => {
      const request = { instrument: instrumentId, ...input, time: { ...input.time, sentAt: undefined } }
      return createOnce(laboratory, actor, {
        subjectKind: 'instrument-check',
        id: input.id,
        input: request,
        find: (tx) => checkOf(tx, instrumentId, input.id),
        create: async (tx) => {
          await lockInstrument(tx, instrumentId)
          const instrument = await existing(tx, instrumentId)
          if (!checksOfInstrument[instrument.kind]?.includes(input.kind))
            throw invalidField('kind', `${instrument.code} has no such check. Choose one that it has.`)
          const told = tellTime(input.time, tx.at)
          const bounds = input.bounds ?? (input.kind === 'load' ? await loadBoundsIn(tx) : undefined)
          if (!bounds) throw invalidField('bounds.nominal', 'Enter what it should be and by how much it may differ.')
          const judged = judge(input, bounds)
          refuseSuperseded((await findChecks(tx, instrumentId)).flatMap(toCheck), input)
          const check = {
            id: input.id,
            instrumentId,
            kind: input.kind,
            nominal: judged.nominal,
            nominalText: bounds.nominal,
            tolerance: judged.tolerance,
            toleranceText: bounds.tolerance,
            unit: bounds.unit,
            source: bounds.source,
            reference: input.reference || null,
            passed: judged.passed,
            supersedesId: input.supersedes?.id ?? null,
            reason: input.supersedes?.reason ?? null,
          }
          const { typed } = input
          const row = await insertCheck(
            tx,
            check,
            { typed, value: judged.value, requestDig: digestOf(JSON.parse(JSON.stringify(request))) },
            told,
          )
          tx.record({
            action: 'instrument:check',
            subjectKind: 'instrument-check',
            subjectId: input.id,
            topics: ['instruments', `instrument:${instrumentId}`, 'test'],
            content: check,
            rows: [row],
          })
          return (await checkOf(tx, instrumentId, input.id))!
        },
      })
    },
  }
}

/** Passed when what was read lies no further from the nominal value than the tolerance, in the unit of both. */
function judge({ kind, typed }: AddCheck, { nominal, tolerance, unit }: CheckBounds) {
  if (!(checkUnits[kind] as readonly string[]).includes(unit))
    throw invalidField('bounds.unit', `This is read in ${checkUnits[kind].join(' or ')}.`)
  const mayBeNegative = kind === 'temperature'
  const value = readNumber('typed', typed, { unit, label: 'What was read', mayBeNegative })
  const wanted = readNumber('bounds.nominal', nominal, { unit, label: 'The nominal value', mayBeNegative })
  const allowed = readNumber('bounds.tolerance', tolerance, { unit, label: 'The tolerance' })
  return {
    value,
    nominal: wanted,
    tolerance: allowed,
    passed: decimal(value).minus(wanted).abs().lte(allowed),
  }
}

function readNumber(path: string, typed: string, options: Parameters<typeof readTypedNumber>[1]): string {
  const read = readTypedNumber(typed, options)
  if (!read.ok) throw invalidField(path, read.message)
  return read.value
}

function refuseSuperseded(checks: readonly InstrumentCheck[], sent: AddCheck): void {
  if (!sent.supersedes) return
  const named = checks.find(({ id, kind }) => id === sent.supersedes?.id && kind === sent.kind)
  if (!named) throw invalidField('supersedes', 'No such check was entered here. Look at the list again.')
  if (!named.superseded) return
  const sentence = `The check of ${named.typed} was corrected meanwhile. Look at the list again.`
  throw new AppError('conflict', sentence, {
    errors: [{ path: 'supersedes', message: sentence }],
    extra: { stored: named, sent },
  })
}

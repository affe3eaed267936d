import type { CreateMaterial, NewReceipt } from '@curebook/contract/materials'
import type { Place } from '@curebook/contract/custody'
import { applyAct } from '@curebook/trade/custody/apply-act'
import { notBegun, type Person } from '@curebook/trade/custody/custody'
import { readAmount, type Amount } from '@curebook/trade/quantity/amount'
import { decimal, plainDigits } from '@curebook/trade/quantity/decimal'
import { readTypedNumber } from '@curebook/trade/quantity/typed-number'
import { AppError, invalidField } from '#platform/problem'

type Read = Extract<Amount, { ok: true }>

/** A sample on arrival, with what was typed read. */
export type Received = {
  /** In whose care it begins. */
  readonly custodian: { readonly toMemberId: string } | { readonly toPlaceId: string }
  readonly temperature: string | null
  readonly containers: readonly (Read & { readonly typed: string })[]
  /** In grams, where every container was weighed; a volume has no mass that anybody told. */
  readonly massG: string | null
}

/** What a receipt is judged with: the sample, and what was found and told of it. */
export type Arrived = Pick<CreateMaterial, 'kind' | 'receivedOn' | 'sourceName' | 'supplier' | 'receipt'>

/**
 * Reads what was found on arrival and begins the chain of custody.
 * @throws AppError beside the field that is no number, no amount or no possible day
 */
export function readReceived(input: Arrived, by: Person, place: Place | null): Received {
  const receipt: NewReceipt = input.receipt ?? { containers: [] }
  checkMadeOn(input)
  const containers = readContainers(receipt)
  const massG = massOf(containers)
  const outcome = applyAct(notBegun('sample'), {
    kind: 'received',
    by,
    from: { kind: 'party', name: input.supplier || input.sourceName },
    to: place ? { ...place, kind: 'place' } : by,
    massG,
  })
  if (!outcome.ok)
    throw place
      ? invalidField('receipt.placeId', outcome.sentence)
      : new AppError('refused-by-rule', outcome.sentence, { extra: { reason: outcome.code } })
  return {
    custodian: place ? { toPlaceId: place.id } : { toMemberId: by.id },
    temperature: readTemperature(receipt),
    containers,
    massG,
  }
}

function readContainers({ containers, containerCount }: NewReceipt): Received['containers'] {
  const read = containers.map((typed, n) => {
    const amount = readAmount(typed, `What container ${n + 1} holds`)
    if (!amount.ok) throw invalidField(`receipt.containers.${n}`, amount.message)
    return { ...amount, typed }
  })
  if (containerCount !== undefined && read.length > 0 && read.length !== containerCount)
    throw invalidField(
      'receipt.containerCount',
      `${containerCount} counted, but ${read.length} with an amount: give one amount for each, or none.`,
    )
  return read
}

function massOf(containers: Received['containers']): string | null {
  if (containers.length === 0 || containers.some(({ massG }) => massG === null)) return null
  return plainDigits(containers.reduce((sum, { massG }) => sum.plus(massG!), decimal('0')))
}

function readTemperature({ temperature }: NewReceipt): string | null {
  if (temperature === undefined) return null
  const read = readTypedNumber(temperature, { unit: '°C', label: 'The temperature', mayBeNegative: true })
  if (!read.ok) throw invalidField('receipt.temperature', read.message)
  return read.value
}

function checkMadeOn({ kind, receivedOn, receipt }: Arrived): void {
  if (receipt?.madeOn === undefined) return
  if (kind !== 'emulsion') throw invalidField('receipt.madeOn', 'The day it was made counts for an emulsion only.')
  if (receipt.madeOn > receivedOn)
    throw invalidField(
      'receipt.madeOn',
      `It cannot be made after it was received on ${receivedOn}: give an earlier day.`,
    )
}

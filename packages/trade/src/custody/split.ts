import { decimal, plainDigits, type Decimal } from '../quantity/decimal.ts'
import { refuse, type CustodyAct, type CustodyRefusal } from './custody.ts'

type Split = Extract<CustodyAct, { kind: 'split' }>
export type Shares = { readonly ok: true; readonly leftG: string } | CustodyRefusal

/**
 * What is left of an item after pieces were taken: pieces + left + loss = what was there, to the last digit. A loss is
 * stated, never assumed.
 * @param massG the item's mass on record, in grams; null where it was never weighed
 */
export function sharesOf({ pieces, lossG, leftG, weighedG }: Split, massG: string | null): Shares {
  if (massG !== null && weighedG !== null)
    return refuse(
      'mass-known',
      `Its mass is on record as ${massG} g: state what went missing since as loss, not another mass.`,
    )
  const held = massG ?? weighedG
  if (held === null)
    return refuse('mass-unknown', 'Its mass is not on record: weigh it first and give its mass with the split.')
  if (pieces.length === 0) return refuse('not-a-mass', 'A split makes at least one piece: give its mass.')
  const masses = pieces.map((piece) => piece.massG)
  const wrong = [...masses, held].find((mass) => !isMass(mass) || decimal(mass).lte(0))
  if (wrong !== undefined) return refuse('not-a-mass', `A mass must be more than 0 g, like 800: “${wrong}” is not.`)
  const stated = [lossG, ...(leftG === null ? [] : [leftG])].find((mass) => !isMass(mass))
  if (stated !== undefined)
    return refuse('not-a-mass', `What is lost or left is 0 g or more, like 12.5: “${stated}” is not.`)
  return kept({
    held: decimal(held),
    taken: sum(masses),
    loss: decimal(lossG),
    left: leftG === null ? null : decimal(leftG),
  })
}

function kept(shares: { held: Decimal; taken: Decimal; loss: Decimal; left: Decimal | null }): Shares {
  const { held, taken, loss } = shares
  const remains = held.minus(taken).minus(loss)
  const words = `Pieces of ${plainDigits(taken)} g and ${plainDigits(loss)} g lost`
  if (remains.isNegative())
    return refuse(
      'mass-not-kept',
      `${words} are ${plainDigits(remains.abs())} g more than the ${plainDigits(held)} g there were. Look at the masses again.`,
    )
  const left = shares.left ?? remains
  if (left.eq(remains)) return { ok: true, leftG: plainDigits(left) }
  const off = remains.minus(left)
  return refuse(
    'mass-not-kept',
    `${words} leave ${plainDigits(remains)} g of ${plainDigits(held)} g, but ${plainDigits(left)} g were weighed: ${
      off.isPositive()
        ? `${plainDigits(off)} g are missing; add them to the loss.`
        : `${plainDigits(off.abs())} g too much.`
    }`,
  )
}

function sum(masses: readonly string[]): Decimal {
  return masses.reduce((total, mass) => total.plus(mass), decimal('0'))
}

/** Digits of a mass, without sign and unit. */
export function isMass(digits: string): boolean {
  return /^\d+(\.\d+)?$/.test(digits)
}

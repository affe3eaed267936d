import type { CheckSpecimen } from '@curebook/contract/loads'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { massRuleOf, type MassRule, massState } from '@curebook/trade/procedure/constant-mass'
import { spanWords } from '#platform/span-words'
import type { LoadReadingRow, MemberRow } from './loads.repository.ts'

/** What the warm weighings of each check specimen of a load say, in the order in which they were begun. */
export function checksOf(readings: readonly LoadReadingRow[], members: readonly MemberRow[]): CheckSpecimen[] {
  const masses = readings.filter(({ stepKey }) => stepKey === 'warm-mass')
  return [...new Set(masses.map(({ key }) => key))].flatMap((testId) => {
    const member = members.find((one) => one.testId === testId)
    const rule = member && massRuleOf(JSON.parse(member.parametersText) as EditionParameters)
    if (!member || !rule) return []
    const own = masses.filter(({ key }) => key === testId)
    return [
      {
        testId,
        code: member.code,
        label: member.label,
        weighings: own.map(toLoadReading),
        ...saidOf(`${member.label} (${member.code})`, own, rule),
      },
    ]
  })
}

export function toLoadReading({ id, typed, unit, at, membershipId, name, initials }: LoadReadingRow) {
  return { id, typed, unit, at: at.toISOString(), by: { membershipId, name, initials } }
}

function saidOf(name: string, own: readonly LoadReadingRow[], rule: MassRule) {
  const { state, change, from, to } = massState(
    own.map(({ at, value }) => ({ at: at.toISOString(), value })),
    rule,
  )
  if (!from || !to || change === null)
    return {
      state,
      sentence: `${name}: ${to?.value} g; weigh it again ${spanWords(rule.intervalMs / 1000)} after that or later.`,
    }
  const span = spanWords((Date.parse(to.at) - Date.parse(from.at)) / 1000)
  const told = `${name}: ${from.value} → ${to.value} g, ${change} g in ${span}`
  return {
    state,
    sentence:
      state === 'constant'
        ? `${told}, no more than ${rule.limit} g: constant.`
        : `${told}, more than ${rule.limit} g: still drying.`,
  }
}

/** Whether a load is dry: every check specimen constant, and at least one weighed. */
export function constantMassOf(checks: readonly CheckSpecimen[]): { reached: boolean; sentence: string } {
  if (checks.length === 0)
    return {
      reached: false,
      sentence: 'No check specimen has been weighed: take one or two, of the richest content and put in last.',
    }
  return {
    reached: checks.every(({ state }) => state === 'constant'),
    sentence: checks.map(({ sentence }) => sentence).join(' '),
  }
}

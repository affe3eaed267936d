import type { TrialCup, TrialCups } from '@curebook/contract/trials'
import type { DecimalSign } from '@curebook/trade/quantity/display'
import { inLimitUnit } from '@curebook/trade/specification/enterable'
import { judge } from '@curebook/trade/specification/judge'
import type { Limit } from '@curebook/trade/specification/specification'
import { digitsOf, personName } from '#platform/row-values'
import type { BaseRow, CupRow } from './trials.repository.ts'

type Digits = { toFixed(): string }

/** A cup with its mix time judged by the specification's limit, whatever the temperature: that stands beside it. */
export function toCup(row: CupRow, limit: Limit | undefined, sign: DecimalSign): TrialCup {
  const mixTime = pair(row.mixTimeText, row.mixTime)
  return {
    id: row.id,
    number: row.number,
    emulsion: { typed: row.emulsionPercentText, value: digitsOf(row.emulsionPercent) },
    water: { typed: row.waterPercentText, value: digitsOf(row.waterPercent) },
    additive: { typed: row.additivePercentText, value: digitsOf(row.additivePercent) },
    filler: { typed: row.fillerPercentText, value: digitsOf(row.fillerPercent) },
    temperature: pair(row.temperatureText, row.temperature),
    mixTime,
    mixTimeFrom: row.mixTimeFrom as TrialCup['mixTimeFrom'],
    coated: pair(row.coatedText, row.coated),
    clearWater: pair(row.clearWaterText, row.clearWater),
    consistency: row.consistency as TrialCup['consistency'],
    broke: row.broke as TrialCup['broke'],
    startedAt: row.startedAt?.toISOString() ?? null,
    remark: row.remark,
    meets: mixTime && limit && limit.value !== null ? meetsOf(limit, mixTime.value, row.broke, sign) : null,
    by: personName(row.by),
    at: row.at.toISOString(),
    supersedes: row.supersedesId === null ? null : { id: row.supersedesId, reason: row.reason ?? '' },
  }
}

export function toBase(row: BaseRow): NonNullable<TrialCups['base']> {
  return { cupId: row.trialCupId, number: row.trialCup.number, by: personName(row.by), at: row.at.toISOString() }
}

function meetsOf(limit: Limit, seconds: string, broke: string | null, sign: DecimalSign): TrialCup['meets'] {
  const { verdict, sentence } = judge(
    limit,
    { value: inLimitUnit(seconds, 's', limit.unit) ?? seconds, unit: limit.unit },
    sign,
  )
  // Stirred no longer, a mix that holds together has a longer time than the one noted: too short is not shown.
  if (broke === 'not-broken' && verdict === 'fail')
    return {
      verdict: 'undecided',
      sentence: `${sentence} It had not broken when stirring stopped: stir another cup longer.`,
    }
  return { verdict, sentence }
}

function pair(typed: string | null, value: Digits | null): { typed: string; value: string } | null {
  return typed === null || value === null ? null : { typed, value: digitsOf(value) }
}

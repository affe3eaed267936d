import type { CorrectCondition, PostedConditions } from '@curebook/contract/conditions'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { checkReading } from '@curebook/trade/procedure/reading-check'
import { AppError, invalidField, notFound } from '#platform/problem'
import type { RowsSql } from '#platform/sql-rows'
import { findCorrection, findValue, insertCorrection, lockLog, type StandingValue } from './conditions.repository.ts'
import { judgeLog, zoneOf } from './excursions.ts'
import type { OvenAtHand } from './held-stays.ts'
import { instantWords } from './instant-words.ts'

const temperature = { key: 'temperature', label: 'Temperature', kind: 'number', unit: '°C' } as const

/**
 * Puts a value that somebody mistyped right, and judges the log anew: what rested on it alone is closed with what was
 * corrected, what was decided stays decided.
 */
export async function correctValue(
  sql: RowsSql,
  methods: readonly MethodDeclaration[],
  oven: OvenAtHand,
  valueId: string,
  input: CorrectCondition,
): Promise<PostedConditions> {
  await lockLog(sql, oven.id)
  const checked = checkReading(temperature, input.value)
  if (!checked.ok) throw invalidField('value', checked.message)
  const value = await findValue(sql, valueId)
  if (value?.instrumentId !== oven.id) throw notFound('value')
  const again = await findCorrection(sql, input.id)
  if (again) return answerAgain(again, valueId, input)
  refuseCorrection(value, input)
  await insertCorrection(sql, value, { id: input.id, typed: input.value, value: checked.value, reason: input.reason })
  sql.record({
    action: 'condition:correct',
    subjectKind: 'instrument',
    subjectId: oven.id,
    topics: ['loads', `conditions:${oven.id}`],
    content: {
      id: input.id,
      supersedes: valueId,
      at: value.observedAt.toISOString(),
      typed: input.value,
      unit: value.unit,
      reason: input.reason,
    },
  })
  const at = instantWords(await zoneOf(sql), value.observedAt.toISOString())
  const because = `Corrected by ${sql.actor.name}: ${value.typed} ${value.unit} of ${at} to ${input.value} ${value.unit}.`
  const span = { from: value.observedAt, until: value.observedAt }
  return { stored: 1, known: 0, deviationIds: await judgeLog(sql, methods, oven, span, because) }
}

function answerAgain(
  stored: { supersedesId: string | null; typed: string; reason: string | null },
  valueId: string,
  sent: CorrectCondition,
): PostedConditions {
  if (stored.supersedesId === valueId && stored.typed === sent.value && stored.reason === sent.reason)
    return { stored: 0, known: 1, deviationIds: [] }
  throw new AppError('conflict', 'Another value stands under this id. Send the correction under an id of its own.', {
    extra: { sent },
  })
}

function refuseCorrection(value: StandingValue, sent: CorrectCondition): void {
  if (value.superseded)
    throw new AppError('conflict', 'This value was corrected meanwhile. Look at the one that stands.', {
      extra: { sent },
    })
  if (value.byId === null)
    throw new AppError('refused-by-rule', 'A logger mistypes nothing: what it sent stays as it was sent.')
}

import type { Calculation } from '@curebook/trade/procedure/calculation'
import type {
  ComputedChoice,
  ComputedResult,
  Evaluation,
  MethodDeclaration,
  ResultRefusal,
} from '@curebook/trade/procedure/declaration'
import { type Canonical, canonicalJson, sha256 } from '#platform/canonical-json'
import { ledgerContentOf, type LedgerRow } from '#platform/ledger-content'
import { newId } from '#platform/uuid'
import type { RowsSql } from '#platform/sql-rows'
import type { TestRecord } from './test-record.ts'
import { isWaiting, withdrawnSentence } from './waiting-results.ts'

export type StoredResult = {
  readonly id: string
  readonly testId: string
  readonly key: string
  readonly unit: string | null
  readonly valueText: string | null
  readonly choice: string | null
  readonly findings: string | null
  readonly refusalCode: string | null
  readonly refusalText: string | null
}

/** A result to be written, and the one that it takes the place of. */
export type ResultChange = {
  readonly outcome: ComputedResult | ComputedChoice | (ResultRefusal & { readonly unit: string | null })
  readonly supersedes: StoredResult | null
}

/** Computed results of tests that stand (not superseded). */
export async function standingResults(sql: RowsSql, testIds: readonly string[]): Promise<readonly StoredResult[]> {
  return sql.rows<StoredResult>(
    `select r.id, r.test_id as "testId", r.key, r.unit, r.value_text as "valueText", r.choice, r.findings, r.refusal_code as "refusalCode", r.refusal_text as "refusalText"
       from result r
      where r.lab_id = $1::uuid and r.test_id = any($2::uuid[]) and r.made_by = 'computed'
        and not exists (select from result c where c.lab_id = r.lab_id and c.supersedes_id = r.id)
      order by r.key, r.unit`,
    [sql.actor.labId, testIds],
  )
}

/**
 * What has to be written so that the stored results say what the evaluation says. A value that has not changed is left; one
 * that has is superseded; a refusal takes the place of every value of its key. What waits for the set-up (a factor, the
 * moisture) is no result yet: it is shown, not stored.
 */
export function changesOf(evaluation: Evaluation, stored: readonly StoredResult[]): readonly ResultChange[] {
  const taken = new Set<string>()
  const place = (matches: (result: StoredResult) => boolean): StoredResult | null => {
    const found = stored.find((result) => !taken.has(result.id) && matches(result)) ?? null
    if (found) taken.add(found.id)
    return found
  }
  const values = evaluation.results.flatMap((result): ResultChange[] => {
    const earlier =
      place(({ key, unit }) => key === result.key && unit === result.unit) ??
      place(({ key, unit, refusalCode }) => key === result.key && unit === null && refusalCode !== null)
    const stands = earlier?.valueText === result.value && earlier.findings === findingsOf(result)
    return stands ? [] : [{ outcome: result, supersedes: earlier }]
  })
  const choices = (evaluation.choices ?? []).flatMap((found): ResultChange[] => {
    const earlier = place(({ key, unit }) => key === found.key && unit === null)
    const stands = earlier?.choice === found.choice && earlier.findings === findingsOf(found)
    return stands ? [] : [{ outcome: found, supersedes: earlier }]
  })
  const refusals = evaluation.refusals
    .filter(({ code }) => code !== 'missing-setup')
    .flatMap((refusal): ResultChange[] => {
      const places = stored.filter(({ id, key }) => key === refusal.key && !taken.has(id))
      // What waits takes the place of a number that stood before; alone it is shown, not stored.
      if (places.length === 0 && isWaiting(refusal.code)) return []
      if (places.length === 0) return [{ outcome: { ...refusal, unit: null }, supersedes: null }]
      return places
        .filter(({ refusalText }) => refusalText !== refusal.text)
        .map((earlier) => ({ outcome: { ...refusal, unit: earlier.unit }, supersedes: earlier }))
    })
  return [...values, ...choices, ...refusals, ...goneWithReadings(evaluation, stored)]
}

/**
 * What is neither given nor refused any more, each unit of a key for itself: it was computed from readings that need not be
 * taken and were taken back or corrected, or by a factor that the machine of the run no longer holds. A refusal speaks for
 * every unit of its key. While a required reading is missing, what waits is told for every key instead.
 */
function goneWithReadings(
  { results, choices = [], refusals, missing }: Evaluation,
  stored: readonly StoredResult[],
): readonly ResultChange[] {
  if (missing.length > 0) return []
  const refused = new Set(refusals.map(({ key }) => key))
  const isTold = ({ key, unit }: StoredResult) =>
    refused.has(key) ||
    results.some((result) => result.key === key && (result.unit === unit || unit === null)) ||
    choices.some((choice) => choice.key === key)
  return stored
    .filter((result) => !isTold(result) && result.refusalText !== withdrawnSentence)
    .map((earlier) => ({
      outcome: { key: earlier.key, code: 'reading-withdrawn', text: withdrawnSentence, detail: {}, unit: earlier.unit },
      supersedes: earlier,
    }))
}

/** The sentences of a result as they are stored with it. */
function findingsOf({ findings = [] }: Pick<ComputedResult, 'findings'>): string | null {
  return findings.length > 0 ? findings.join(' ') : null
}

type Written = {
  readonly record: TestRecord
  readonly method: MethodDeclaration
  readonly evaluation: Evaluation
  readonly stored: readonly StoredResult[]
  /** Kept with every superseded result. */
  readonly reason: string
  readonly build: string
}

/** Writes what changed, each with its inputs and calculation. @returns the rows for the ledger entry of the act */
export async function writeResults(
  sql: RowsSql,
  { record, method, evaluation, stored, reason, build }: Written,
): Promise<readonly LedgerRow[]> {
  const rows: LedgerRow[] = []
  for (const { outcome, supersedes } of changesOf(evaluation, stored)) {
    const computed = 'value' in outcome ? outcome : null
    const choice = 'choice' in outcome ? outcome : null
    const found = computed ?? choice
    const refusal = 'code' in outcome ? outcome : null
    const row = {
      labId: sql.actor.labId,
      id: newId(),
      level: 'test',
      testId: record.id,
      key: outcome.key,
      madeBy: 'computed',
      valueText: computed?.value ?? null,
      value: computed?.value ?? null,
      unit: 'unit' in outcome ? outcome.unit : null,
      choice: choice?.choice ?? null,
      findings: found && findingsOf(found),
      refusalCode: refusal?.code ?? null,
      refusalText: refusal?.text ?? null,
      methodKey: method.key,
      computation: method.computation,
      build,
      editionId: record.editionId,
      editionDig: Buffer.from(record.editionDigest),
      supersedesId: supersedes?.id ?? null,
      reason: supersedes ? reason : null,
      byId: sql.actor.membershipId,
      at: sql.at,
    }
    await insertResult(sql, row)
    if (found) await writeCalculation(sql, row.id, found.calculation)
    rows.push(ledgerContentOf('result', row))
  }
  return rows
}

type ResultRow = Record<
  'labId' | 'id' | 'level' | 'testId' | 'key' | 'madeBy' | 'methodKey' | 'build' | 'editionId' | 'byId',
  string
> &
  Record<
    'valueText' | 'value' | 'unit' | 'choice' | 'findings' | 'refusalCode' | 'refusalText' | 'supersedesId' | 'reason',
    string | null
  > & {
    computation: number
    editionDig: Buffer
    at: Date
  }

function insertResult(sql: RowsSql, row: ResultRow): Promise<unknown> {
  return sql.rows(
    `insert into result (lab_id, id, level, test_id, key, made_by, value_text, value, unit, refusal_code, refusal_text, method_key, computation, build, edition_id, edition_dig, supersedes_id, reason, by_id, at, choice, findings)
     values ($1::uuid, $2::uuid, $3, $4::uuid, $5, $6, $7, $8::text::numeric, $9, $10, $11, $12, $13, $14, $15::uuid, $16, $17::uuid, $18, $19::uuid, $20::timestamptz, $21, $22)`,
    [
      row.labId,
      row.id,
      row.level,
      row.testId,
      row.key,
      row.madeBy,
      row.valueText,
      row.value,
      row.unit,
      row.refusalCode,
      row.refusalText,
      row.methodKey,
      row.computation,
      row.build,
      row.editionId,
      row.editionDig,
      row.supersedesId,
      row.reason,
      row.byId,
      row.at,
      row.choice,
      row.findings,
    ],
  )
}

async function writeCalculation(sql: RowsSql, resultId: string, calculation: Calculation): Promise<void> {
  const body = canonicalJson(calculation as unknown as Canonical)
  await sql.rows(
    'insert into calculation (lab_id, result_id, schema, body, dig) values ($1::uuid, $2::uuid, $3, $4, $5)',
    [sql.actor.labId, resultId, calculation.schema, body, sha256(body)],
  )
  const inputs = calculation.lines.flatMap((line) =>
    line.input && line.input.kind !== 'constant' ? [{ ...line, input: line.input }] : [],
  )
  if (inputs.length === 0) return
  const idsOf = (kind: string) => inputs.map(({ input }) => (input.kind === kind ? (input.id ?? null) : null))
  await sql.rows(
    `insert into result_input (lab_id, result_id, n, symbol, reading_id, input_result_id, factor_id, parameter, value_text, unit)
     select $1::uuid, $2::uuid, n, symbol, reading, result, factor, parameter, value, unit
       from unnest($3::smallint[], $4::text[], $5::uuid[], $6::uuid[], $7::uuid[], $8::text[], $9::text[], $10::text[])
         as line (n, symbol, reading, result, factor, parameter, value, unit)`,
    [
      sql.actor.labId,
      resultId,
      inputs.map((_, index) => index + 1),
      inputs.map(({ symbol }) => symbol),
      idsOf('reading'),
      idsOf('result'),
      idsOf('factor'),
      inputs.map(({ input }) => (input.kind === 'parameter' ? (input.key ?? null) : null)),
      inputs.map(({ value }) => value),
      inputs.map(({ unit }) => unit),
    ],
  )
}

import type { Result } from '@curebook/contract/results'
import type { Calculation } from '@curebook/trade/procedure/calculation'
import { checkCalculation } from '@curebook/trade/procedure/calculation-checker'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import { choiceLabel, resultLabels } from '@curebook/trade/methods/result-labels'
import { rowsSql } from '#platform/sql-rows'
import type { Actor } from '#platform/actor'
import type { Laboratory } from '#platform/laboratory'
import { notFound } from '#platform/problem'
import { findResultChain, type ResultRow } from './results.repository.ts'

export type ResultsService = ReturnType<typeof createResultsService>

/** A stored result opened: its calculation, whether the independent checker agrees, and what stood before it. */
export function createResultsService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  function one(actor: Actor, id: string): Promise<Result> {
    return laboratory.inLaboratorySql(actor, async (raw) => {
      const [row, ...earlier] = await findResultChain(rowsSql(raw), id)
      if (!row) throw notFound('result')
      return toResult(methods, row, earlier)
    })
  }
  return { one }
}

function toResult(methods: readonly MethodDeclaration[], row: ResultRow, earlier: readonly ResultRow[]): Result {
  const calculation = row.body === null ? null : (JSON.parse(row.body) as Calculation)
  const faults = calculation && row.value !== null ? checkCalculation(calculation, row.value) : []
  // Why a result was superseded stands with the one that took its place.
  const reasons = [row, ...earlier].map(({ reason }) => reason)
  return {
    id: row.id,
    key: row.key,
    ...resultLabels(methods, row.methodKey, row.key, row.unit),
    value: row.value,
    unit: row.unit,
    choice: choiceLabel(methods, row.methodKey, row.key, row.choice),
    findings: row.findings,
    refusal: row.refusalCode ? { code: row.refusalCode, text: row.refusalText! } : null,
    methodKey: row.methodKey,
    computation: row.computation,
    build: row.build,
    edition: row.editionId ? { id: row.editionId, designation: row.designation! } : null,
    at: row.at.toISOString(),
    calculation: calculation as Result['calculation'],
    checked: calculation && { agrees: faults.length === 0, differing: faults.map((fault) => fault.symbol) },
    superseded: row.superseded,
    earlier: earlier.map(({ id, value, unit, at }, index) => ({
      id,
      value,
      unit,
      at: at.toISOString(),
      reason: reasons[index] ?? null,
    })),
  }
}

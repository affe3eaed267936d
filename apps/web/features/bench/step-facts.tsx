'use client'

import type { EditionParameter, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { Icon } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { conditionRows, type ConditionRow } from './condition-rows.ts'

type Parameters = Readonly<Record<string, EditionParameter>>

/** How the step is done, what must hold meanwhile with its source, and what can hurt: always before its button. */
export function StepFacts({ step, parameters }: { step: StepDeclaration; parameters: Parameters }) {
  const words = useWords()
  return (
    <div className="stack stack-tight">
      <p className="prose">{step.instruction}</p>
      {step.conditions.length > 0 && (
        <ul className="plain-list stack stack-tight" aria-label={words('bench.conditions')}>
          {conditionRows(step.conditions, parameters).map((row) => (
            <Condition key={row.label} row={row} />
          ))}
        </ul>
      )}
      {step.cautions.length > 0 && (
        <div className="caution stack stack-tight" role="note" aria-label={words('bench.cautions')}>
          {step.cautions.map((caution) => (
            <p key={caution} className="row" style={{ flexWrap: 'nowrap', alignItems: 'flex-start' }}>
              <span style={{ flex: 'none', paddingTop: '0.2em' }}>
                <Icon name="warning" />
              </span>
              {caution}
            </p>
          ))}
        </div>
      )}
    </div>
  )
}

function Condition({ row: { label, target, to, tolerance } }: { row: ConditionRow }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const value =
    to !== undefined
      ? words('bench.fromTo', { from: format.digits(target.value), to: format.quantity(to.value, to.unit) })
      : tolerance === undefined
        ? format.quantity(target.value, target.unit)
        : `${format.digits(target.value)} ± ${format.quantity(tolerance.value, tolerance.unit)}`
  return (
    <li>
      {label}: <strong className="reading nowrap">{value}</strong>{' '}
      <span className="quiet">
        {words('bench.source', {
          source: target.source,
          clause: target.clause ?? '',
          // “7.2” is a clause; “page 27” says itself what it is.
          has: target.clause === undefined ? 'no' : /^\d/.test(target.clause) ? 'yes' : 'words',
        })}
      </span>
    </li>
  )
}

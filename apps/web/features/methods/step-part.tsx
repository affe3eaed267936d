'use client'

import type { ReadingDeclaration, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { Icon } from '#components/icon.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import type { Parameter, Parameters } from './editions.ts'
import { conditionValue, readingPhrases } from './procedure-words.ts'
import type { StepLike } from './step-like.ts'
import styles from './methods.module.css'

/** One step: what is done, what can hurt, what must hold, what is read, what is confirmed. */
export function StepPart({
  step,
  number,
  parameters,
  like,
}: {
  step: StepDeclaration
  number: number
  parameters: Parameters
  /** An earlier step that is done in the same way. */
  like?: StepLike | undefined
}) {
  const words = useWords()
  if (like !== undefined)
    return (
      <article className="panel stack stack-tight keep" aria-labelledby={`step-${step.key}`}>
        <h3 id={`step-${step.key}`}>{words('methods.stepNumber', { number, title: step.title })}</h3>
        <p className="prose">{words('methods.asStep', { number: like.number })}</p>
        {like.otherReadings.length > 0 && (
          <dl className={styles.parts}>
            <Readings readings={like.otherReadings} parameters={parameters} />
          </dl>
        )}
      </article>
    )
  const acts = step.events.map((event) => step.eventLabels?.[event] ?? words(`methods.act.${event}`))
  return (
    <article className="panel stack stack-tight keep" aria-labelledby={`step-${step.key}`}>
      <h3 id={`step-${step.key}`}>{words('methods.stepNumber', { number, title: step.title })}</h3>
      <p className="prose">{step.instruction}</p>
      {step.cautions.length > 0 && (
        <ul className="plain-list caution stack stack-tight" aria-label={words('methods.cautions')}>
          {step.cautions.map((caution) => (
            <li key={caution}>
              <Icon name="warning" /> {caution}
            </li>
          ))}
        </ul>
      )}
      <dl className={styles.parts}>
        {step.conditions.length > 0 && <Conditions step={step} parameters={parameters} />}
        {step.readings.length > 0 && <Readings readings={step.readings} parameters={parameters} />}
        {acts.length > 0 && (
          <div>
            <dt>{words('methods.confirmed')}</dt>
            <dd>{acts.map((act) => words('methods.quoted', { text: act })).join(', ')}</dd>
          </div>
        )}
        {step.equipment.length > 0 && (
          <div>
            <dt>{words('methods.equipment')}</dt>
            <dd>{step.equipment.map((kind) => words(`methods.equipment.${kind}`)).join(', ')}</dd>
          </div>
        )}
      </dl>
    </article>
  )
}

function Conditions({ step, parameters }: { step: StepDeclaration; parameters: Parameters }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return (
    <div>
      <dt>{words('methods.conditions')}</dt>
      {step.conditions.map((condition) => (
        <dd key={condition.label}>
          {condition.label}:{' '}
          <strong className="nowrap">
            {conditionValue(condition, parameters, format) ?? words('methods.notHeld')}
          </strong>{' '}
          <SourceText parameter={parameters[condition.targetParameter]} />
        </dd>
      ))}
    </div>
  )
}

function Readings({ readings, parameters }: { readings: readonly ReadingDeclaration[]; parameters: Parameters }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return (
    <div>
      <dt>{words('methods.readings')}</dt>
      {readings.map((reading) => (
        <dd key={reading.key}>
          <strong>{reading.label}</strong>
          <span className="quiet"> {readingPhrases(reading, parameters, format, words).join('; ')}</span>
        </dd>
      ))}
    </div>
  )
}

/** Source, clause and mark of a bound, beside it. */
export function SourceText({ parameter }: { parameter: Parameter | undefined }) {
  const words = useWords()
  if (parameter === undefined) return null
  const source =
    parameter.clause === undefined
      ? parameter.source
      : words('methods.sourceClause', { source: parameter.source, clause: parameter.clause })
  const said = parameter.source.includes(parameter.certainty)
  return (
    <span className="quiet small">
      {said
        ? source
        : words('methods.sourceMark', {
            source,
            mark: words(`methods.certainty.${parameter.certainty.replaceAll(' ', '-')}`),
          })}
    </span>
  )
}

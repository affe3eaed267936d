'use client'

import type { Design } from '@curebook/contract/designs'
import type { RangeView } from '@curebook/contract/range'
import type { Recommendation } from '@curebook/contract/recommendations'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea } from '#components/text-field.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { digitsOf } from '#features/designs/plan-rows.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useStanding } from '#lib/use-standing.ts'
import { useWords } from '#lib/words.ts'
import { contentEcho } from './content-echo.ts'
import { useRecommend } from './range.queries.ts'
import styles from './range.module.css'

const shares = ['water', 'filler', 'additive'] as const

/** What the product never computes. Refusals stand beside their field; remarks are the engineer's to weigh. */
export function RecommendationForm({
  design,
  view,
  standing: opened,
  onDone,
}: {
  design: Design
  view: RangeView
  standing: Recommendation | null
  onDone: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { decimalSign } = useLaboratoryFormat()
  const [emulsion, setEmulsion] = useState('')
  const [tolerance, setTolerance] = useState('')
  const recommend = useRecommend(lab.id, design)
  const { id, standing } = useStanding(opened, recommend.error)
  const echo = contentEcho({ emulsion, tolerance }, view, decimalSign)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/recommendations').then(({ RecommendSchema }) => RecommendSchema),
    read: (form) => {
      const share = (name: string) => digitsOf(String(form.get(name)))
      return {
        id,
        emulsionPercent: share('emulsionPercent'),
        toleranceResidualPercent: share('toleranceResidualPercent'),
        ...Object.fromEntries(shares.map((key) => [key, { from: share(`${key}.from`), to: share(`${key}.to`) }])),
        reason: String(form.get('reason')),
        ...(standing === null
          ? {}
          : { supersedes: { id: standing.id, reason: String(form.get('supersedes.reason')) } }),
      }
    },
    save: recommend,
    onSaved: onDone,
  })
  const errors = withChoices(told, {
    emulsionPercent: words('range.needEmulsion'),
    toleranceResidualPercent: words('range.needTolerance'),
    'supersedes.reason': words('range.needReplaceReason'),
    ...Object.fromEntries(
      shares.flatMap((key) =>
        (['from', 'to'] as const).map((end) => [
          [key, end].join('.'),
          words(`range.needShare.${end}`, { share: words(`range.share.${key}`) }),
        ]),
      ),
    ),
  })
  return (
    <form className="stack narrow no-print" noValidate onSubmit={onSubmit} aria-busy={recommend.isPending}>
      <FormErrors errors={errors} />
      <MeasureField
        name="emulsionPercent"
        label={words('range.emulsionField')}
        hint={words('range.emulsionHint')}
        quantity={words('range.emulsionShort')}
        unit="%"
        onValue={setEmulsion}
        error={errors.emulsionPercent}
      />
      <MeasureField
        name="toleranceResidualPercent"
        label={words('range.toleranceField')}
        hint={words('range.toleranceHint')}
        quantity={words('range.toleranceShort')}
        unit="%"
        onValue={setTolerance}
        error={errors.toleranceResidualPercent}
      />
      <Echo echo={echo} emulsion={emulsion} residue={view.residue?.value ?? ''} />
      {shares.map((key) => (
        <FieldSet key={key} legend={words(`range.shareField.${key}`)}>
          <div className={styles.pair}>
            {(['from', 'to'] as const).map((end) => (
              <MeasureField
                key={end}
                name={`${key}.${end}`}
                label={words(`range.shareEnd.${end}`, { share: words(`range.share.${key}`) })}
                quantity={words(`range.share.${key}`)}
                unit="%"
                error={errors[`${key}.${end}`]}
              />
            ))}
          </div>
        </FieldSet>
      ))}
      <TextArea
        name="reason"
        label={words('range.reasonField')}
        hint={words('range.reasonHint')}
        error={errors.reason}
      />
      {standing !== null && (
        <TextArea
          name="supersedes.reason"
          label={words('range.replaceReason')}
          hint={words('range.replaceHint')}
          error={errors['supersedes.reason']}
        />
      )}
      <div className="row">
        <Button type="submit" tone="main" busy={recommend.isPending}>
          {words(standing === null ? 'range.recommend' : 'range.replaceRecommendation')}
        </Button>
        <SaveState saving={savingOf(recommend)} />
      </div>
      <p className="quiet small">{words('range.recommendAbout')}</p>
    </form>
  )
}

function Echo({
  echo,
  emulsion,
  residue,
}: {
  echo: ReturnType<typeof contentEcho>
  emulsion: string
  residue: string
}) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  return (
    <output className={styles.echo} aria-label={words('range.echo')}>
      {echo === null ? (
        <span className="quiet">{words('range.echoWaits')}</span>
      ) : (
        <>
          <span>
            {words('range.echoOf', {
              emulsion: digits(digitsOf(emulsion)),
              residue: digits(residue),
              residual: digits(echo.residual, 3),
            })}
          </span>
          {echo.withTolerance !== null && (
            <span>
              {' '}
              {words('range.echoTolerance', {
                from: digits(echo.withTolerance.from, 3),
                to: digits(echo.withTolerance.to, 3),
              })}
            </span>
          )}
          {echo.remarks.map((remark) => (
            <p key={remark} className="caution">
              {remark}
            </p>
          ))}
        </>
      )}
    </output>
  )
}

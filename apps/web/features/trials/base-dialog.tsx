'use client'

import type { Design } from '@curebook/contract/designs'
import type { TrialCup } from '@curebook/contract/trials'
import { waterForEmulsion } from '@curebook/trade/design/trial-base'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { useConfirmation } from '#components/toast.tsx'
import { CellField } from '#features/designs/cell-field.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import designStyles from '#features/designs/designs.module.css'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { baseRows, baseShares, contentsOf, withShare, withStep } from './base-rows.ts'
import { useCupAsBase } from './trials.queries.ts'

/** What each content of the series gets from the cup, to be looked over before it is applied. */
export function BaseDialog({
  design,
  cup,
  sharesStand,
  onClose,
}: {
  design: Design
  cup: TrialCup
  sharesStand: string | null
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { digits } = useLaboratoryFormat()
  const confirm = useConfirmation()
  const apply = useCupAsBase(lab.id, design)
  const [id] = useState(newId)
  const [step, setStep] = useState(waterForEmulsion)
  const [rows, setRows] = useState(() => baseRows(cup, design.mixes, waterForEmulsion))
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/trials').then(({ UseAsBaseSchema }) => UseAsBaseSchema),
    read: () => ({ id, cupId: cup.id, contents: contentsOf(rows) }),
    save: apply,
    onSaved: () => {
      confirm(words('trials.used', { number: cup.number }))
      onClose()
    },
  })
  const errors = withChoices(
    told,
    Object.fromEntries(Object.keys(told).map((path) => [path, words('trials.needShare')])),
  )
  const none = design.mixes.length === 0
  return (
    <Dialog title={words('trials.useTitle', { number: cup.number })} onClose={onClose} wide>
      {sharesStand !== null ? (
        <p>{sharesStand}</p>
      ) : (
        <form className="stack" noValidate onSubmit={onSubmit} aria-busy={apply.isPending}>
          <FormErrors errors={errors} />
          <p>
            {words('trials.recipe', {
              emulsion: digits(cup.emulsion.value),
              water: digits(cup.water.value),
              additive: digits(cup.additive.value),
              filler: digits(cup.filler.value),
            })}
          </p>
          {none ? (
            <p>{words('trials.noSeriesYet')}</p>
          ) : (
            <>
              <MeasureField
                name="step"
                label={words('trials.step')}
                hint={words('trials.stepHint')}
                quantity={words('trials.stepShort')}
                unit="%"
                value={step}
                onValue={(typed) => {
                  setStep(typed)
                  setRows(withStep(cup, rows, typed))
                }}
              />
              <div className={designStyles.scroll}>
                <table className={designStyles.grid}>
                  <caption className="sr-only">{words('trials.shares')}</caption>
                  <thead>
                    <tr>
                      <th scope="col">{words('designs.mix')}</th>
                      {baseShares.map((share) => (
                        <th key={share} scope="col">
                          {words(`designs.share.${share}`)}
                          <span className={designStyles.unit}>{words('designs.ofDryAggregate')}</span>
                        </th>
                      ))}
                    </tr>
                  </thead>
                  <tbody>
                    {rows.map((row, index) => (
                      <tr key={row.mixId}>
                        <th scope="row">{words('designs.mixName', { content: digits(row.emulsionPercent) })}</th>
                        {baseShares.map((share) => (
                          <td key={share}>
                            <CellField
                              name={['contents', index, share].join('.')}
                              label={words('designs.shareOf', {
                                share: words(`designs.share.${share}`),
                                number: index + 1,
                              })}
                              value={row[share]}
                              error={errors[['contents', index, share].join('.')]}
                              onChange={(event) =>
                                setRows(
                                  rows.map((one) => (one === row ? withShare(row, share, event.target.value) : one)),
                                )
                              }
                            />
                          </td>
                        ))}
                      </tr>
                    ))}
                  </tbody>
                </table>
              </div>
            </>
          )}
          <div className="row">
            <Button type="submit" tone="main" busy={apply.isPending}>
              {words(none ? 'trials.choose' : 'trials.apply')}
            </Button>
            <SaveState saving={savingOf(apply)} />
          </div>
        </form>
      )}
    </Dialog>
  )
}

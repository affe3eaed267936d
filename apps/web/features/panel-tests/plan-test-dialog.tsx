'use client'

import type { Design } from '@curebook/contract/designs'
import type { Method } from '@curebook/contract/methods'
import Link from 'next/link'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { Dialog } from '#components/dialog.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MeasureField } from '#components/measure-field.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { Select } from '#components/select.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { withChoices } from '#features/designs/design-form-data.ts'
import { shares } from '#features/designs/plan-rows.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { usePlanPanelTest } from './panel-tests.queries.ts'
import { errorsByField, newContent, planOfTest, replicatesOf } from './plan-of-test.ts'

/** Plans a test beside the series: which, at which content, how often. Its batch sheet and its place at the bench follow. */
export function PlanTestDialog({
  design,
  methods,
  preset,
  content,
  onClose,
}: {
  design: Design
  methods: readonly Method[]
  /** The test that was asked for, if one was. */
  preset: string
  /** Id of the mix that is to be judged, if one is. */
  content: string
  onClose: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { digits } = useLaboratoryFormat()
  const confirm = useConfirmation()
  const [methodKey, setMethodKey] = useState(preset)
  const [mix, setMix] = useState(content === '' && design.mixes.length === 0 ? newContent : content)
  const plan = usePlanPanelTest(lab.id, design)
  const method = methods.find((one) => one.key === methodKey)
  const ofMix = method?.madeFrom === 'batch'
  const asked = replicatesOf(method)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: async () => {
      const { PlanMaterialTestSchema, PlanSeriesSchema } = await import('@curebook/contract/designs')
      return ofMix ? PlanSeriesSchema : PlanMaterialTestSchema
    },
    read: (form) => planOfTest(form, method, design.mixes),
    save: plan,
    onSaved: () => {
      confirm(words('panelTests.planned', { test: method?.name ?? '' }))
      onClose()
    },
  })
  const errors = withChoices(
    errorsByField(told),
    Object.fromEntries(
      shares.map((share) => [share, words('panelTests.needShare', { share: words(`designs.share.${share}`) })]),
    ),
  )
  return (
    <Dialog title={words('panelTests.planTitle')} onClose={onClose}>
      <form className="stack" noValidate onSubmit={onSubmit} aria-busy={plan.isPending}>
        <FormErrors errors={errors} />
        <Select
          name="methodKey"
          label={words('panelTests.test')}
          value={methodKey}
          onChange={(event) => setMethodKey(event.target.value)}
          prompt={words('panelTests.chooseTest')}
          options={methods.map(({ key: value, name: label }) => ({ value, label }))}
          error={errors.methodKey}
        />
        {method && (
          <p className="small">
            {words(ofMix ? 'panelTests.ofMix' : 'panelTests.ofMaterials')}{' '}
            <Link href={`/l/${lab.short}/methods/${method.key}`} prefetch={false}>
              {words('panelTests.howItIsDone')}
            </Link>
          </p>
        )}
        {ofMix && (
          <Select
            name="mix"
            label={words('panelTests.content')}
            hint={words('panelTests.contentHint')}
            value={mix}
            onChange={(event) => setMix(event.target.value)}
            prompt={words('panelTests.chooseContent')}
            error={mix === '' && errors.emulsionPercent !== undefined ? words('panelTests.needContent') : undefined}
            options={[
              ...design.mixes.map(({ id, emulsionPercent }) => ({
                value: id,
                label: words('panelTests.contentOf', { content: digits(emulsionPercent) }),
              })),
              { value: newContent, label: words('panelTests.newContent') },
            ]}
          />
        )}
        {ofMix &&
          mix === newContent &&
          shares.map((share) => (
            <MeasureField
              key={share}
              name={share}
              label={words(`designs.share.${share}`)}
              quantity={words(`designs.share.${share}`)}
              unit="% of dry aggregate"
              defaultValue={share === 'emulsionPercent' ? '' : (design.mixes[0]?.[share] ?? '')}
              error={errors[share]}
            />
          ))}
        <MeasureField
          name="replicates"
          label={words('panelTests.replicates')}
          quantity={words('panelTests.replicates')}
          wholeNumber
          key={methodKey}
          defaultValue={asked?.value ?? '1'}
          hint={asked && words('panelTests.asked.replicates', { count: Number(asked.value), source: asked.source })}
          error={errors.replicates}
        />
        <div className="row">
          <Button type="submit" tone="main" busy={plan.isPending}>
            {words('panelTests.plan')}
          </Button>
          <SaveState saving={savingOf(plan)} />
        </div>
      </form>
    </Dialog>
  )
}

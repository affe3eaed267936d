'use client'

import type { Design } from '@curebook/contract/designs'
import type { Method } from '@curebook/contract/methods'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { useConfirmation } from '#components/toast.tsx'
import { BasePart } from '#features/trials/base-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { newId } from '#lib/new-id.ts'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { replicatesOf } from '#features/panel-tests/plan-of-test.ts'
import { useWords } from '#lib/words.ts'
import { CastDaysOf } from './cast-days.tsx'
import { ContentRows } from './content-rows.tsx'
import { withChoices } from './design-form-data.ts'
import { usePlanSeries } from './designs.queries.ts'
import { MethodRows } from './method-rows.tsx'
import { emptyRow, planOf, rowAfter, rowOfMix, specimensOf, type ContentRow, type MethodRow } from './plan-rows.ts'
import { seriesMethods } from './series-methods.ts'

const usual = { full: 5, verification: 1 } as const

/** Plans the series, or adds to one that stands: contents × tests × replicates, with spares. */
export function PlanForm({
  design,
  methods,
  onDone,
}: {
  design: Design
  methods: readonly Method[]
  onDone: () => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const { digits } = useLaboratoryFormat()
  const confirm = useConfirmation()
  const [key] = useState(newId)
  const plan = usePlanSeries(lab.id, design, key)
  const offered = seriesMethods(methods, design.specification.limits)
  const [contents, setContents] = useState<readonly ContentRow[]>(() =>
    Array.from({ length: design.mixes.length > 0 ? 1 : usual[design.kind] }, () => emptyRow(newId())),
  )
  const [tests, setTests] = useState<readonly MethodRow[]>(() =>
    offered.map(({ method, chosen }) => ({
      ...{ methodKey: method.key, chosen, spares: {} },
      // Three of each where the edition says nothing of it: common practice, no source.
      replicates: replicatesOf(method)?.value ?? '3',
    })),
  )
  const counts = specimensOf(contents, tests)
  const { errors: told, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/designs').then(({ PlanSeriesSchema }) => PlanSeriesSchema),
    read: () => planOf(contents, tests),
    save: plan,
    onSaved: () => {
      confirm(words('designs.planned', { count: counts.series + counts.spares }))
      onDone()
    },
  })
  const errors = withChoices(told, Object.fromEntries(Object.keys(told).map((path) => [path, sentenceOf(path)])))
  function sentenceOf(path: string): string {
    const [list, index, share] = path.split('.')
    return list === 'contents' && share !== undefined
      ? words('designs.needShare', { share: words(`designs.share.${share}`), number: Number(index) + 1 })
      : words(path.endsWith('.count') ? 'designs.needCount' : 'designs.needReplicates')
  }
  const takeUp = (row: ContentRow) =>
    setContents([...contents.filter(({ emulsionPercent }) => emulsionPercent.trim() !== ''), row])
  return (
    <form className="stack" noValidate onSubmit={onSubmit} aria-busy={plan.isPending}>
      <FormErrors errors={errors} />
      <FieldSet legend={words('designs.contents')}>
        {design.mixes.length > 0 && (
          <div className="row">
            <span>{words('designs.takeUpAbout')}</span>
            {design.mixes.map((mix) => (
              <Button key={mix.id} size="small" onClick={() => takeUp(rowOfMix(mix, newId()))}>
                {words('designs.takeUp', { content: digits(mix.emulsionPercent) })}
              </Button>
            ))}
          </div>
        )}
        <BasePart design={design} rows={contents} onRows={setContents} />
        <ContentRows
          rows={contents}
          errors={errors}
          onRows={setContents}
          {...(design.kind === 'full' ? { onAdd: () => setContents([...contents, rowAfter(contents, newId())]) } : {})}
        />
      </FieldSet>
      <FieldSet legend={words('designs.tests')}>
        <p className="quiet small">{words('designs.testsAbout')}</p>
        <MethodRows
          contents={contents}
          rows={tests}
          names={new Map(offered.map(({ method }) => [method.key, method.name]))}
          errors={errors}
          onRows={setTests}
        />
      </FieldSet>
      <CastDaysOf methods={methods.filter(({ key }) => tests.some((row) => row.methodKey === key && row.chosen))} />
      <p role="status">{words('designs.planCounts', counts)}</p>
      <div className="row">
        <Button type="submit" tone="main" busy={plan.isPending}>
          {words('designs.plan', { count: counts.series + counts.spares })}
        </Button>
        <SaveState saving={savingOf(plan)} />
      </div>
    </form>
  )
}

'use client'

import type { ReplicateGroup, Replicates } from '@curebook/contract/replicates'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { repeatabilitiesOf, withoutRepeatability } from './replicate-view.ts'

/** What the tests rest on, and what is not published: said once, below the table. */
export function ReplicateNotes({ groups, apart }: { groups: readonly ReplicateGroup[]; apart: Replicates['apart'] }) {
  const words = useWords()
  const { quantity } = useLaboratoryFormat()
  const unpublished = withoutRepeatability(groups, 'none-published')
  const differing = withoutRepeatability(groups, 'editions-differ')
  return (
    <div className="quiet small stack stack-tight prose">
      {groups.some(({ outliers }) => outliers.length > 0) && <p>{words('replicates.aboutTests')}</p>}
      {groups.length > 0 && groups.every(({ n }) => n < 3) && <p>{words('replicates.needThree')}</p>}
      {repeatabilitiesOf(groups).map(({ label, value, unit, source, certainty }) => (
        <p key={`${label} ${value}`}>
          {words('replicates.repeatability', { label, value: quantity(value, unit), source, certainty })}
        </p>
      ))}
      {unpublished.length > 0 && <p>{words('replicates.nonePublished', { methods: unpublished.join('; ') })}</p>}
      {differing.length > 0 && <p>{words('replicates.editionsDiffer', { methods: differing.join('; ') })}</p>}
      {groups.some(({ ofSample }) => ofSample) && <p>{words('replicates.ofSamples')}</p>}
      {apart.map(({ methodName, why }) => (
        <p key={methodName}>{words('replicates.apart', { method: methodName, why })}</p>
      ))}
    </div>
  )
}

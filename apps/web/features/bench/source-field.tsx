'use client'

import type { DrawSource } from '@curebook/contract/bench'
import { Select } from '#components/select.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { CodeField } from './code-field.tsx'
import { itemWithLabel, openItems, stateOfItem, type SourceItem } from './source-choice.ts'

/** Out of which bag or container a component is weighed: chosen from those open, or by the label on it. */
export function SourceField({
  source,
  chosenId,
  onChoose,
}: {
  source: DrawSource
  chosenId: string
  onChoose: (id: string) => void
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  const chosen = source.items.find(({ id }) => id === chosenId)
  const said = (item: SourceItem) =>
    [
      item.kind === 'sample' ? words('bench.source.sample', { code: item.code }) : item.code,
      item.fraction ?? '',
      item.leftG === null ? '' : words('bench.source.left', { left: format.quantity(item.leftG, 'g') }),
    ]
      .filter(Boolean)
      .join(', ')
  const state = chosen && stateOfItem(chosen)
  return (
    <div className="stack stack-tight">
      <Select
        name="drawnFromId"
        label={words('bench.source.label')}
        prompt={words('bench.source.none')}
        options={openItems(source, chosenId).map((item) => ({ value: item.id, label: said(item) }))}
        value={chosenId}
        onChange={(event) => onChoose(event.target.value)}
      />
      <CodeField
        label={words('bench.source.code')}
        hint={words('bench.source.codeHint')}
        button={words('bench.source.take')}
        onCode={(typed) => {
          const item = itemWithLabel(source, typed)
          if (item === undefined) return { wrong: words('bench.source.unknown', { typed: typed.trim() }) }
          onChoose(item.id)
          return { found: item.code }
        }}
      />
      {chosen !== undefined && state !== 'open' && (
        <p className="caution" role="alert">
          {words(state === 'used-up' ? 'bench.source.usedUp' : 'bench.source.notHere', { code: chosen.code })}
        </p>
      )}
    </div>
  )
}

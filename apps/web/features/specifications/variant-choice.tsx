'use client'

import type { BuiltInSpecification } from '@curebook/contract/specifications'
import { Select } from '#components/select.tsx'
import { useWords } from '#lib/words.ts'
import type { VariantChosen } from './use-variant-choice.ts'

/** Which guideline, for which aggregate and which traffic; the choice stands in the address. */
export function VariantChoice({
  items,
  choice: { builtIn, variant, setFrom, setType, setTraffic },
}: {
  items: readonly BuiltInSpecification[]
  choice: VariantChosen
}) {
  const words = useWords()
  return (
    <div className="columns no-print" style={{ '--column': '14rem' } as React.CSSProperties}>
      <Select
        name="builtInKey"
        label={words('specifications.guideline')}
        value={builtIn.key}
        onChange={(event) => setFrom(event.target.value)}
        options={items.map(({ key, name }) => ({ value: key, label: name }))}
      />
      <Select
        name="aggregateType"
        label={words('specifications.aggregateType')}
        value={variant.aggregateType}
        onChange={(event) => setType(event.target.value)}
        options={builtIn.aggregateTypes.map((value) => ({ value, label: value }))}
      />
      <Select
        name="traffic"
        label={words('specifications.traffic')}
        value={variant.traffic}
        onChange={(event) => setTraffic(event.target.value)}
        options={builtIn.traffics.map((value) => ({ value, label: words(`specifications.traffic.${value}`) }))}
      />
    </div>
  )
}

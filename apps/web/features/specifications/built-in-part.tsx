'use client'

import type { BuiltInSpecification } from '@curebook/contract/specifications'
import { useQuery } from '@tanstack/react-query'
import { ButtonLink } from '#components/button.tsx'
import { Loaded } from '#components/loaded.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { BandText } from './band-text.tsx'
import { GradationBandTable } from './gradation-band-table.tsx'
import { InformationList } from './information-list.tsx'
import { LimitTable } from './limit-table.tsx'
import { specificationQueries } from './specifications.queries.ts'
import { useVariantChoice } from './use-variant-choice.ts'
import { VariantChoice } from './variant-choice.tsx'

/** Guideline values as shipped. They bind nobody until a contract adopts them. */
export function BuiltInPart() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(specificationQueries.builtIn(lab.id))
  return (
    <Loaded query={query} what={words('specifications.theBuiltIn')} height="24rem">
      {({ items }) => <Values items={items} />}
    </Loaded>
  )
}

function Values({ items }: { items: readonly BuiltInSpecification[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const choice = useVariantChoice(items)
  if (choice === undefined) return null
  const { builtIn, variant } = choice
  const address = `/l/${lab.short}/specifications/new?from=${builtIn.key}&type=${encodeURIComponent(variant.aggregateType)}&traffic=${variant.traffic}`
  return (
    <div className="stack">
      <VariantChoice items={items} choice={choice} />
      <p className="quiet prose">{builtIn.source}</p>
      <dl className="facts">
        <div style={{ gridColumn: '1 / -1' }}>
          <dt>{words('specifications.band')}</dt>
          <dd>
            <BandText band={variant.residualBand} />
          </dd>
        </div>
      </dl>
      <LimitTable limits={variant.limits} caption={words('specifications.limitsOf', { name: builtIn.name })} />
      <p className="quiet small prose">{words('specifications.usAbout')}</p>
      <GradationBandTable band={variant.gradationBand} />
      <InformationList items={variant.information} />
      {lab.may('specification:adopt') && (
        <div className="no-print">
          <ButtonLink href={address}>{words('specifications.adoptThese')}</ButtonLink>
        </div>
      )}
    </div>
  )
}

'use client'

import type { Specification } from '@curebook/contract/specifications'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { SourceText } from './source-text.tsx'

type Band = Specification['residualBand']

/** Residual binder allowed, in words, with source and mark. */
export function BandText({ band }: { band: Band }) {
  const words = useWords()
  const span = useSpan()
  return (
    <>
      <span className="reading">{span(band)}</span> {band.unit}
      <span className="quiet small" style={{ display: 'block' }}>
        <SourceText source={band.source} certainty={band.certainty} />
        {band.changedFrom !== null && (
          <>
            {'. '}
            {words('specifications.bandChanged', { span: span(band.changedFrom), source: band.changedFrom.source })}
          </>
        )}
      </span>
    </>
  )
}

function useSpan() {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  return ({ from, to }: Pick<Band, 'from' | 'to'>) => {
    if (from !== null && to !== null) return words('specifications.span', { from: digits(from), to: digits(to) })
    if (from !== null) return words('specifications.atLeast', { value: digits(from) })
    if (to !== null) return words('specifications.atMost', { value: digits(to) })
    return words('specifications.noBand')
  }
}

'use client'

import { shownDecimals } from '@curebook/contract/shown-decimals'
import type { Curve } from '@curebook/contract/range'
import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { QuantityText } from '#components/quantity-text.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { observationQueries } from './observations.queries.ts'
import { ObservedPhoto, ObservedText } from './observed-list.tsx'
import { sideBySide, type LaidOut } from './side-by-side.ts'
import styles from './observations.module.css'

/** The specimens laid side by side by content, as on the bench: what was seen beside what was lost. Nothing where nothing was. */
export function SeenStrip({ designId, curves }: { designId: string; curves: readonly Curve[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery({ ...observationQueries.ofDesign(lab.id, designId), enabled: lab.may('bench:read') })
  const seen = query.data?.items ?? []
  if (seen.length === 0) return null
  return (
    <section className="stack" aria-labelledby="seen">
      <h2 id="seen">{words('observations.sideBySide')}</h2>
      {curves.map((curve) => (
        <div key={curve.key} className="stack stack-tight">
          <h3>{curve.label}</h3>
          <ol className={styles.strip} tabIndex={0} aria-label={curve.label}>
            {sideBySide(curve, seen).map(({ emulsionPercent, specimens }) => (
              <li key={emulsionPercent}>
                <strong>{words('observations.content', { percent: emulsionPercent })}</strong>
                <ul className="plain-list stack stack-tight">
                  {specimens.map((specimen) => (
                    <Specimen key={specimen.testId} specimen={specimen} unit={curve.unit} />
                  ))}
                </ul>
              </li>
            ))}
          </ol>
        </div>
      ))}
    </section>
  )
}

function Specimen({ specimen, unit }: { specimen: LaidOut; unit: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const { testId, label, code, y, counts, seen } = specimen
  const name = words('observations.specimen', { label, code })
  return (
    <li className="keep">
      <span className="row">
        <Link href={`/l/${lab.short}/bench/tests/${testId}`} prefetch={false} className="nowrap">
          {name}
        </Link>
        <QuantityText digits={y} unit={unit} decimals={shownDecimals(unit)} />
        {!counts && <StatusMark status="void">{words('observations.countsNot')}</StatusMark>}
      </span>
      {seen.map((one) => (
        <span key={one.id} className="row">
          <ObservedText observation={one} />
          {one.attachment !== null && <ObservedPhoto file={one.attachment} name={name} />}
        </span>
      ))}
    </li>
  )
}

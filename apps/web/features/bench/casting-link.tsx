'use client'

import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { castingPlace, type TaskGroup } from './bench-groups.ts'
import styles from './bench.module.css'

/** Which one of a group is cast next and as what number, leading to the whole order; nothing where nothing is cast. */
export function CastingLink({ group: { first } }: { group: TaskGroup }) {
  const words = useWords()
  const lab = useLaboratory()
  const place = castingPlace(lab.short, first)
  if (place === undefined || first.castPlace === null) return null
  const { ordinal, of } = first.castPlace
  return (
    <p className="small">
      <Link href={place} prefetch={false} className={styles.castNext}>
        {words('bench.castNext', { label: first.label, ordinal, of })}
      </Link>
    </p>
  )
}

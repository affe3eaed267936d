'use client'

import type { BenchTask } from '@curebook/contract/bench'
import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { castingPlace, type TaskGroup } from './bench-groups.ts'
import styles from './bench.module.css'

/** Leads from a soak, or the run after it, to the times at which specimens are put in one by one. */
export function PutInLink({ task: { putIn, designId, methodKey } }: { task: BenchTask }) {
  const words = useWords()
  const lab = useLaboratory()
  if (!putIn) return null
  return (
    <p className="small no-print">
      <Link
        href={`/l/${lab.short}/bench/put-in?${new URLSearchParams({ designId, methodKey })}`}
        prefetch={false}
        className={styles.orderLink}
      >
        {words('bench.putInList')}
      </Link>
    </p>
  )
}

/** Which one of a group is cast next and as what number, leading to the whole order; nothing where nothing is cast. */
export function CastingLink({ group: { first } }: { group: TaskGroup }) {
  const words = useWords()
  const lab = useLaboratory()
  const place = castingPlace(lab.short, first)
  if (place === undefined || first.castPlace === null) return null
  const { ordinal, of } = first.castPlace
  return (
    <p className="small">
      <Link href={place} prefetch={false} className={styles.orderLink}>
        {words('bench.castNext', { label: first.label, ordinal, of })}
      </Link>
    </p>
  )
}

'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { firstScreenOf } from '#lib/screens.ts'
import { useWords } from '#lib/words.ts'
import { askForNotices } from './held-notices.ts'
import { noticeQueries } from './notices.queries.ts'
import styles from './notices.module.css'

/** In the header of every page: how many notices wait, leading to the screen where they stand. */
export function NoticeCount() {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery({
    ...noticeQueries.mine(lab.id, lab.me.membershipId),
    enabled: lab.may('notice:read-own'),
  })
  const count = query.data?.count ?? 0
  return (
    <span role="status" className={styles.count}>
      {count > 0 && (
        <Link href={`/l/${lab.short}/${firstScreenOf(lab.role)}#notices`} prefetch={false} onClick={askForNotices}>
          {words('notices.count', { count })}
        </Link>
      )}
    </span>
  )
}

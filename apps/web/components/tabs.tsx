'use client'

import Link from 'next/link'
import { usePathname, useSearchParams } from 'next/navigation'
import type { ReactNode } from 'react'
import styles from './tabs.module.css'

/** Parts of a page, chosen by the address (`?tab=…`): links, so Back works and a tab can be shared. The first is the plain address. */
export function Tabs({
  label,
  tabs,
  param = 'tab',
}: {
  label: string
  tabs: readonly { readonly key: string; readonly label: ReactNode }[]
  param?: string
}) {
  const path = usePathname()
  const search = useSearchParams()
  const current = currentTab(tabs, search.get(param))
  const address = (key: string) => {
    const next = new URLSearchParams(search)
    if (key === tabs[0]?.key) next.delete(param)
    else next.set(param, key)
    return next.size === 0 ? path : `${path}?${next}`
  }
  return (
    <nav className={styles.tabs} aria-label={label}>
      {tabs.map((tab) => (
        <Link
          key={tab.key}
          href={address(tab.key)}
          aria-current={tab.key === current ? 'page' : undefined}
          scroll={false}
        >
          {tab.label}
        </Link>
      ))}
    </nav>
  )
}

/** The tab that the address names, the first one when it names none that is here. */
export function useTab<Key extends string>(keys: readonly Key[], param = 'tab'): Key {
  const named = useSearchParams().get(param)
  return (keys.find((key) => key === named) ?? keys[0]) as Key
}

function currentTab(tabs: readonly { readonly key: string }[], named: string | null): string | undefined {
  return (tabs.find(({ key }) => key === named) ?? tabs[0])?.key
}

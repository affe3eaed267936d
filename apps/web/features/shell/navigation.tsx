'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { screens, type ScreenKey } from '#lib/screens.ts'
import { useWords } from '#lib/words.ts'
import { mayOpen } from './screen-access.ts'
import styles from './shell.module.css'

/** The screens that this person may open, always in the same order. */
export function useOpenScreens(): readonly (typeof screens)[number][] {
  const { may } = useLaboratory()
  return screens.filter(({ key }) => mayOpen(key, may))
}

export function Navigation({ open, onGo }: { open: boolean; onGo: () => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const path = usePathname()
  return (
    <nav className={styles.nav} data-open={open} id="screens" aria-label={words('shell.screens')}>
      <ul>
        {useOpenScreens().map((screen) => (
          <li key={screen.key}>
            <Link
              href={`/l/${lab.short}/${screen.path}`}
              aria-current={isCurrent(path, lab.short, screen.key) ? 'page' : undefined}
              onClick={onGo}
              prefetch={false}
            >
              {words(`shell.screen.${screen.key}`)}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}

function isCurrent(path: string, short: string, key: ScreenKey): boolean {
  const at = `/l/${short}/${key}`
  return path === at || path.startsWith(`${at}/`)
}

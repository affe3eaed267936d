'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'
import { useEffect, useRef, useState, type ReactNode } from 'react'
import { Button, ButtonLink } from '#components/button.tsx'
import { Icon } from '#components/icon.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { ChangePerson } from '#features/device/change-person.tsx'
import { NoticeCount } from '#features/notices/notice-count.tsx'
import { SearchButton } from '#features/search/search-button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { firstScreenOf } from '#lib/screens.ts'
import { useSignOut } from '#lib/session.queries.ts'
import { useWords } from '#lib/words.ts'
import { BrandMark } from './brand-mark.tsx'
import { HelpButton } from './help-button.tsx'
import { Navigation } from './navigation.tsx'
import { PrintFoot } from './print-foot.tsx'
import { RoleChoice } from './role-choice.tsx'
import { mayOpenPath } from './screen-access.ts'
import { ThemeChoice } from './theme-choice.tsx'
import { WaitingBanner } from './waiting-banner.tsx'
import styles from './shell.module.css'

/** What stands around every screen of a laboratory, always in the same places. */
export function LaboratoryFrame({ children }: { children: ReactNode }) {
  const words = useWords()
  const lab = useLaboratory()
  const [menuOpen, setMenuOpen] = useState(false)
  const path = usePathname()
  const main = useFocusAfterNavigation()
  return (
    <div className={styles.shell}>
      <a className={styles.skip} href="#content">
        {words('shell.skip')}
      </a>
      <header className={styles.header}>
        <Link className={styles.brand} href={`/l/${lab.short}/${firstScreenOf(lab.role)}`} prefetch={false}>
          <BrandMark />
          <span>
            {words('common.site')}
            <small>{lab.name}</small>
          </span>
        </Link>
        <NoticeCount />
        <span className={styles.menu}>
          <Button aria-expanded={menuOpen} aria-controls="screens" onClick={() => setMenuOpen(!menuOpen)}>
            <Icon name="lines" />
            {words('shell.menu')}
          </Button>
        </span>
        <div className={styles.tools} data-open={menuOpen}>
          <RoleChoice />
          <SearchButton />
          <HelpButton />
          <ThemeChoice />
          <Link className={styles.account} href={`/l/${lab.short}/account`} prefetch={false}>
            {words('shell.account', { name: lab.me.name })}
          </Link>
          <ChangePerson />
          <SignOutButton />
        </div>
      </header>
      <WaitingBanner />
      <Navigation open={menuOpen} onGo={() => setMenuOpen(false)} />
      <main className={styles.main} id="content" tabIndex={-1} ref={main}>
        {mayOpenPath(path, lab.may) ? children : <NotForRole />}
        <PrintFoot />
      </main>
    </div>
  )
}

/** A page of another role: said plainly, with the way home, before anything of it is asked for. */
function NotForRole() {
  const words = useWords()
  const { short, role } = useLaboratory()
  return (
    <div className="stack">
      <PageHeading screen={words('shell.notForRole.title')} under={words('shell.notForRole.text')} />
      <div>
        <ButtonLink href={`/l/${short}/${firstScreenOf(role)}`} tone="main">
          {words('common.toFirstScreen')}
        </ButtonLink>
      </div>
    </div>
  )
}

function SignOutButton() {
  const words = useWords()
  const signOut = useSignOut()
  return (
    <>
      <Button onClick={() => signOut.mutate()} busy={signOut.isPending}>
        {words('shell.signOut')}
      </Button>
      {signOut.error !== null && <span role="alert">{signOut.error.message}</span>}
    </>
  )
}

/** Another page begins at its main part: for a keyboard and for a screen reader alike. */
function useFocusAfterNavigation() {
  const main = useRef<HTMLElement>(null)
  const path = usePathname()
  const previous = useRef(path)
  useEffect(() => {
    if (previous.current === path) return
    previous.current = path
    if (!main.current?.contains(document.activeElement)) main.current?.focus({ preventScroll: true })
  }, [path])
  return main
}

'use client'

import { useEffect, useRef, type ReactNode } from 'react'
import { createPortal } from 'react-dom'
import { lazyPart } from '#components/lazy-part.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useIdleLock } from './use-idle-lock.ts'
import { useOtherPerson } from './use-other-person.ts'
import styles from './device.module.css'

const fetchLock = () => import('./lock-dialog.tsx').then(({ LockDialog: dialog }) => dialog)
const LockDialog = lazyPart(fetchLock)

/** The lock is fetched so long after the page, ms (our own choice, no source): before it is due, and after what is worked with. */
const FETCH_AFTER_MS = 10_000

/** Covers the page when nobody has touched it for a while. What is typed stays beneath it as it is. */
export function ScreenLock() {
  const lab = useLaboratory()
  useOtherPerson(lab.me.membershipId)
  const { locked, unlock } = useIdleLock(lab.me.membershipId)
  const locks = lab.may('device:switch')
  useEffect(() => {
    if (!locks) return undefined
    const timer = setTimeout(() => void fetchLock().catch(() => undefined), FETCH_AFTER_MS)
    return () => clearTimeout(timer)
  }, [locks])
  if (!locked || !locks) return null
  return (
    <Cover>
      <LockDialog onUnlock={unlock} />
    </Cover>
  )
}

/** Where the lock cannot be fetched the page is covered all the same, and no key reaches it. */
function Cover({ children }: { children: ReactNode }) {
  const cover = useRef<HTMLDivElement>(null)
  useEffect(() => {
    // The lock itself is a dialog of its own, and may be there by now.
    const beneath = [...document.body.children].filter(
      (element): element is HTMLElement =>
        element instanceof HTMLElement && element !== cover.current && element.localName !== 'dialog' && !element.inert,
    )
    for (const element of beneath) element.inert = true
    return () => beneath.forEach((element) => (element.inert = false))
  }, [])
  return createPortal(
    // A dialog of the page beneath leaves this one to itself.
    <div ref={cover} className={styles.cover} data-react-aria-top-layer="true">
      {children}
    </div>,
    document.body,
  )
}

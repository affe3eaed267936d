'use client'

import dynamic from 'next/dynamic'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useIdleLock } from './use-idle-lock.ts'
import { useOtherPerson } from './use-other-person.ts'

const LockDialog = dynamic(() => import('./lock-dialog.tsx').then(({ LockDialog: dialog }) => dialog), { ssr: false })

/** Covers the page when nobody has touched it for a while. What is typed stays beneath it as it is. */
export function ScreenLock() {
  const lab = useLaboratory()
  useOtherPerson(lab.me.membershipId)
  const { locked, unlock } = useIdleLock(lab.me.membershipId)
  return locked && lab.may('device:switch') ? <LockDialog onUnlock={unlock} /> : null
}

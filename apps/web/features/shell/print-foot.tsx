'use client'

import { useEffect, useState } from 'react'
import { flushSync } from 'react-dom'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import styles from './shell.module.css'

/** Address and time of a print, on paper only. */
export function PrintFoot() {
  const words = useWords()
  const format = useLaboratoryFormat()
  const { name, zone } = useLaboratory()
  const [printed, setPrinted] = useState<{ readonly at: string; readonly address: string }>()
  useEffect(() => {
    const note = () => setPrinted({ at: new Date().toISOString(), address: window.location.href })
    // The paper is laid out as soon as the listeners are through: what is only queued by then is printed as it was before.
    const noteAtOnce = () => flushSync(note)
    note()
    window.addEventListener('beforeprint', noteAtOnce)
    return () => window.removeEventListener('beforeprint', noteAtOnce)
  }, [])
  if (printed === undefined) return null
  return (
    <p className={`only-print ${styles.printed}`}>
      {words('shell.printed', {
        laboratory: name,
        time: format.instant(printed.at, 'long'),
        zone,
        address: printed.address,
      })}
    </p>
  )
}

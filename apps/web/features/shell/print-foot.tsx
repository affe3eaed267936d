'use client'

import { useEffect, useState } from 'react'
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
    note()
    window.addEventListener('beforeprint', note)
    return () => window.removeEventListener('beforeprint', note)
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

'use client'

import type { Role } from '@curebook/contract/common'
import { useRouter } from 'next/navigation'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { firstScreenOf } from '#lib/screens.ts'
import { useWords } from '#lib/words.ts'
import styles from './shell.module.css'

/** A person with two roles chooses which one they act in; each role has its own first screen. */
export function RoleChoice() {
  const words = useWords()
  const router = useRouter()
  const { me, role, setRole, short } = useLaboratory()
  if (me.roles.length < 2) return <span className={styles.who}>{words(`shell.role.${role}`)}</span>
  return (
    <label className={styles.choice}>
      <span>{words('shell.actingAs')}</span>
      <select
        value={role}
        onChange={(event) => {
          const next = event.target.value as Role
          setRole(next)
          router.push(`/l/${short}/${firstScreenOf(next)}`)
        }}
      >
        {me.roles.map((each) => (
          <option key={each} value={each}>
            {words(`shell.role.${each}`)}
          </option>
        ))}
      </select>
    </label>
  )
}

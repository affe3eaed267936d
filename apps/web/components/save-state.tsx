'use client'

import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { Icon } from './icon.tsx'
import styles from './save-state.module.css'

export type Saving =
  | { readonly state: 'idle' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly at: string }
  | { readonly state: 'waiting'; readonly count: number }
  | { readonly state: 'refused'; readonly reason: string }

/** Saving… · Saved 14:32 · Waiting for network (3) · Not saved: reason. Always one of these, told without moving focus. */
export function SaveState({ saving }: { saving: Saving }) {
  const words = useWords()
  const format = useLaboratoryFormat()
  if (saving.state === 'refused') {
    return (
      <span className={`${styles.state} ${styles.refused}`} role="alert">
        <Icon name="warning" />
        {words('common.save.refused', { reason: saving.reason })}
      </span>
    )
  }
  return (
    <span className={`${styles.state} ${saving.state === 'idle' ? '' : styles[saving.state]}`} role="status">
      {saving.state === 'saving' && words('common.save.saving')}
      {saving.state === 'saved' && (
        <>
          <Icon name="tick" />
          {words('common.save.saved', { time: format.instant(saving.at, 'clock') })}
        </>
      )}
      {saving.state === 'waiting' && (
        <>
          <Icon name="cloud" />
          {words('common.save.waiting', { count: saving.count })}
        </>
      )}
    </span>
  )
}

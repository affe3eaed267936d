'use client'

import { cupBreaks, cupConsistencies, type CupLook } from '@curebook/contract/trials'
import designStyles from '#features/designs/designs.module.css'
import { useWords } from '#lib/words.ts'
import styles from './trials.module.css'

/** How a cup looked or broke, in words of the bench. */
export function useLookWords() {
  const words = useWords()
  return {
    consistency: (key: (typeof cupConsistencies)[number]) => words(`trials.consistency.${key}`),
    broke: (key: (typeof cupBreaks)[number]) => words(`trials.broke.${key}`),
  }
}

/** One of the known looks, or none while nobody noted it. */
export function CupChoice({
  look,
  label,
  value,
  onValue,
}: {
  look: CupLook
  label: string
  value: string
  onValue: (value: string) => void
}) {
  const words = useWords()
  const looks = useLookWords()
  const options =
    look === 'consistency'
      ? cupConsistencies.map((key) => ({ key, text: looks.consistency(key) }))
      : cupBreaks.map((key) => ({ key, text: looks.broke(key) }))
  return (
    <select
      name={look}
      aria-label={label}
      className={`${designStyles.cell} ${styles.choice}`}
      value={value}
      onChange={(event) => onValue(event.currentTarget.value)}
    >
      <option value="">{words('trials.notNoted')}</option>
      {options.map(({ key, text }) => (
        <option key={key} value={key}>
          {text}
        </option>
      ))}
    </select>
  )
}

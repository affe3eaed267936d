'use client'

import type { Theme } from '#lib/theme-cookie.ts'
import { useTheme } from '#lib/theme.ts'
import { useWords } from '#lib/words.ts'
import styles from './shell.module.css'

const themes: readonly Theme[] = ['system', 'light', 'dark']

export function ThemeChoice() {
  const words = useWords()
  const [theme, setTheme] = useTheme()
  return (
    <label className={styles.choice}>
      <span>{words('shell.theme.label')}</span>
      <select value={theme} onChange={(event) => setTheme(event.target.value as Theme)}>
        {themes.map((each) => (
          <option key={each} value={each}>
            {words(`shell.theme.${each}`)}
          </option>
        ))}
      </select>
    </label>
  )
}

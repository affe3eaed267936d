'use client'

import { useSyncExternalStore } from 'react'
import { readTheme, THEME_COOKIE, type Theme } from './theme-cookie.ts'

const YEAR_SECONDS = 31_536_000

export function useTheme(): [Theme, (theme: Theme) => void] {
  const theme = useSyncExternalStore(
    (changed) => {
      const watcher = new MutationObserver(changed)
      watcher.observe(document.documentElement, { attributeFilter: ['data-theme'] })
      return () => watcher.disconnect()
    },
    () => readTheme(document.documentElement.dataset.theme),
    () => 'system' as Theme,
  )
  return [theme, setTheme]
}

function setTheme(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset.theme
  else document.documentElement.dataset.theme = theme
  document.cookie = `${THEME_COOKIE}=${theme}; path=/; max-age=${theme === 'system' ? 0 : YEAR_SECONDS}; samesite=lax`
}

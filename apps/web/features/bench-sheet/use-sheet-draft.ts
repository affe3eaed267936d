'use client'

import { useState } from 'react'

type Draft = Readonly<Record<string, string>>

/** What is typed on a sheet and not stored yet, in this tab, over a reload. */
export function useSheetDraft(sheet: string) {
  const storedAs = `curebook-sheet-${sheet}`
  const [before] = useState(() => readDraft(sessionStorage.getItem(storedAs)))
  return {
    typed: (name: string) => before[name] ?? '',
    keep: (form: FormData) => {
      const typed = [...form].filter((pair): pair is [string, string] => typeof pair[1] === 'string' && pair[1] !== '')
      sessionStorage.setItem(storedAs, JSON.stringify(Object.fromEntries(typed)))
    },
    /** Stored now: not typed again after a reload. */
    drop: (names: readonly string[]) => {
      const kept = Object.entries(readDraft(sessionStorage.getItem(storedAs))).filter(([name]) => !names.includes(name))
      sessionStorage.setItem(storedAs, JSON.stringify(Object.fromEntries(kept)))
    },
  }
}

function readDraft(stored: string | null): Draft {
  try {
    return JSON.parse(stored ?? '{}') as Draft
  } catch {
    return {}
  }
}

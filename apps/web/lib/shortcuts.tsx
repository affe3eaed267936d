'use client'

import { createContext, useContext, useEffect, useMemo, useRef, useState, type ReactNode } from 'react'

export type Shortcut = { readonly keys: string; readonly label: string; readonly run: () => void }
type Shortcuts = {
  readonly listed: readonly Shortcut[]
  readonly on: boolean
  readonly setOn: (on: boolean) => void
  readonly add: (shortcut: Shortcut) => () => void
}

const STORED_AS = 'curebook-shortcuts'
const PAUSE_MS = 1_200
const ShortcutContext = createContext<Shortcuts | undefined>(undefined)

export function useShortcuts(): Shortcuts {
  const shortcuts = useContext(ShortcutContext)
  if (shortcuts === undefined) throw new Error('useShortcuts needs a ShortcutProvider around it')
  return shortcuts
}

/** A key ("?"), or one after another ("g b"), while this component is on screen. Never acts while one types. */
export function useShortcut(keys: string, label: string, run: () => void): void {
  const { add } = useShortcuts()
  const latest = useRef(run)
  useEffect(() => {
    latest.current = run
  })
  useEffect(() => add({ keys, label, run: () => latest.current() }), [add, keys, label])
}

/** Keeps the list, and acts on keys unless the person has switched them off (WCAG 2.1.4). */
export function ShortcutProvider({ children }: { children: ReactNode }) {
  const [listed, setListed] = useState<readonly Shortcut[]>([])
  const [on, setOn] = useState(true)
  useEffect(() => setOn(localStorage.getItem(STORED_AS) !== 'off'), [])
  useEffect(() => {
    if (!on) return
    let typed: readonly string[] = []
    let last = 0
    const press = (event: KeyboardEvent) => {
      if (
        event.ctrlKey ||
        event.metaKey ||
        event.altKey ||
        isTyping(event.target) ||
        document.querySelector('[role="dialog"]') !== null
      )
        return
      typed = [...(event.timeStamp - last < PAUSE_MS ? typed.slice(-1) : []), event.key]
      last = event.timeStamp
      const found = listed.find(({ keys }) => keys === typed.join(' ')) ?? listed.find(({ keys }) => keys === event.key)
      if (found === undefined) return
      event.preventDefault()
      typed = []
      found.run()
    }
    window.addEventListener('keydown', press)
    return () => window.removeEventListener('keydown', press)
  }, [on, listed])
  const add = useMemo(
    () => (shortcut: Shortcut) => {
      setListed((before) => [...before, shortcut])
      return () => setListed((before) => before.filter((other) => other !== shortcut))
    },
    [],
  )
  const value = useMemo(
    () => ({
      listed,
      on,
      add,
      setOn: (next: boolean) => {
        localStorage.setItem(STORED_AS, next ? 'on' : 'off')
        setOn(next)
      },
    }),
    [listed, on, add],
  )
  return <ShortcutContext.Provider value={value}>{children}</ShortcutContext.Provider>
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.isContentEditable || target.matches('input, select, textarea'))
}

'use client'

import { useContext, useEffect, useRef, useSyncExternalStore } from 'react'
import { showNotification } from '#lib/tablet/notifications.ts'
import { tellSignal } from '#lib/tablet/tell-signal.ts'
import { useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import { useWords } from '#lib/words.ts'
import { claimWarnings } from './given-warnings.ts'
import { ClockOffset } from './laboratory-clock.ts'
import { dueWarnings, nextWarningAt, type ClosingWindow, type DueWarning } from './window-warnings.ts'

/** A timer cannot be set further ahead (ms). */
const FURTHEST_MS = 2 ** 31 - 1

/** Given on this page, until seen or until the window has closed; it outlives going from one bench screen to another. */
let told: readonly DueWarning[] = []
/** One look at a time: what falls due meanwhile is seen with the next tick of the clock. */
let claiming = false
const listeners = new Set<() => void>()
function tell(next: readonly DueWarning[]): void {
  told = next
  for (const listener of listeners) listener()
}
function listen(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}
const none: readonly DueWarning[] = []

/**
 * Gives the warnings that fall due, each once on this device and in one of its tabs, by sound, vibration and notification; what was given stands in
 * the answer until it is seen. `now` moves with the clock; a timer of its own falls on the very moment, since a browser lets
 * ticks of a tab in the background through only once a minute.
 */
export function useWindowWarnings(
  windows: readonly ClosingWindow[],
  now: number,
): { readonly warnings: readonly DueWarning[]; readonly see: () => void } {
  const words = useWords()
  const offset = useContext(ClockOffset)
  const [{ warnings: minutes }] = useTabletSettings()
  const shown = useSyncExternalStore(
    listen,
    () => told,
    () => none,
  )
  const look = useRef(() => undefined as void)
  useEffect(() => {
    const give = async () => {
      const at = Date.now() + offset
      const due = await claimWarnings(localStorage, (given) => dueWarnings(windows, at, minutes, given), at)
      if (due.length === 0) return
      tellSignal('warning')
      const sentence = due
        .map(({ name, minutes: left }) => words('bench.warning.one', { name, minutes: left }))
        .join(' ')
      void showNotification(words('bench.warning.title'), sentence, due.map(({ window }) => window).join())
      tell([...told.filter(({ window }) => !due.some((other) => other.window === window)), ...due])
    }
    look.current = () => {
      if (claiming) return
      claiming = true
      void give().finally(() => (claiming = false))
    }
    look.current()
  }, [windows, now, minutes, offset, words])
  const next = nextWarningAt(windows, now, minutes)
  useEffect(() => {
    if (next === undefined) return undefined
    const timer = setTimeout(() => look.current(), Math.min(FURTHEST_MS, Math.max(0, next - Date.now() - offset)))
    return () => clearTimeout(timer)
  }, [next, offset])
  // What is done meanwhile runs no more, and what has closed is told as missed.
  const standing = shown.filter(
    ({ window, closesAt }) => Date.parse(closesAt) > now && windows.some(({ key }) => key === window),
  )
  return { warnings: standing, see: () => tell(none) }
}

/** Puts a word before the title of the page while it is given: it is read on the tab of a page in the background. */
export function useTitleSign(sign: string | undefined): void {
  useEffect(() => {
    if (sign === undefined) return undefined
    const mark = () => {
      if (!document.title.startsWith(sign)) document.title = `${sign} ${document.title}`
    }
    mark()
    // Another screen brings a title of its own.
    const watch = new MutationObserver(mark)
    watch.observe(document.head, { subtree: true, childList: true, characterData: true })
    return () => {
      watch.disconnect()
      if (document.title.startsWith(sign)) document.title = document.title.slice(sign.length + 1)
    }
  }, [sign])
}

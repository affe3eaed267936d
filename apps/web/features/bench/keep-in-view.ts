'use client'

import { useEffect, type RefObject } from 'react'

/** Below this height of what is seen (px) an on-screen keyboard is up: no tablet is that low without one. Our own choice. */
const lowWindow = 520
/** Less than this is the browser's own bar that comes and goes, not a keyboard (px). */
const leastKeyboard = 80

type Span = { readonly top: number; readonly bottom: number }

/**
 * What is brought into view for a focused field while the keyboard is up: its whole form (label, field, unit, echo, button)
 * where the field stands near the form's top, else the field alone. All in px of the window.
 */
export function partToShow(visible: Span, form: Span | undefined, field: Span): 'nothing' | 'form' | 'field' {
  const height = visible.bottom - visible.top
  const inside = ({ top, bottom }: Span) => top >= visible.top && bottom <= visible.bottom
  if (height >= lowWindow || inside(form ?? field)) return 'nothing'
  if (form !== undefined && field.bottom - form.top <= height) return 'form'
  return inside(field) ? 'nothing' : 'field'
}

/** What a keyboard covers of the window, in px, where a browser lays it over the page instead of making the page smaller. */
export function coveredByKeyboard(
  innerHeight: number,
  visual: { readonly height: number; readonly offsetTop: number; readonly scale: number } | null,
): number {
  // Zoomed in with two fingers less is seen too.
  if (visual === null || visual.scale > 1.01) return 0
  const covered = Math.round(innerHeight - visual.height - visual.offsetTop)
  return covered < leastKeyboard ? 0 : covered
}

/** Keeps the field that has the focus, with its unit, echo and button, above the keyboard of a tablet. */
export function useKeepInView(container: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const own = container.current
    const visual = window.visualViewport as VisualViewport | null
    const root = document.documentElement
    const cover = () => root.style.setProperty('--keyboard', `${coveredByKeyboard(window.innerHeight, visual)}px`)
    const show = () => {
      cover()
      const focused = document.activeElement
      if (!(focused instanceof HTMLElement) || !own?.contains(focused)) return
      if (!focused.matches('input:not([type="radio"], [type="checkbox"]), textarea')) return
      const field = focused.closest<HTMLElement>('[data-field]') ?? focused
      const form = focused.closest('form') ?? undefined
      const top = visual?.offsetTop ?? 0
      const visible = { top, bottom: top + (visual?.height ?? window.innerHeight) }
      const part = partToShow(visible, form?.getBoundingClientRect(), field.getBoundingClientRect())
      if (part !== 'nothing') (part === 'form' ? form : field)?.scrollIntoView({ block: 'start' })
    }
    show()
    own?.addEventListener('focusin', show)
    window.addEventListener('resize', show)
    visual?.addEventListener('resize', show)
    return () => {
      own?.removeEventListener('focusin', show)
      window.removeEventListener('resize', show)
      visual?.removeEventListener('resize', show)
      root.style.removeProperty('--keyboard')
    }
  }, [container])
}

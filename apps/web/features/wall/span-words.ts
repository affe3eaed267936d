'use client'

import { useWords } from '#lib/words.ts'
import { spanOf } from './wall-time.ts'

/** A span in the words of the wall: `12 min`, `2 h 05 min`, `3 d 4 h`. */
export function useSpanWords(): (milliseconds: number) => string {
  const words = useWords()
  return (milliseconds) => {
    const { unit, large, small } = spanOf(milliseconds)
    return words(`wall.span.${unit}`, { large, small })
  }
}

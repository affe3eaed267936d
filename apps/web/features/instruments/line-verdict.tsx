'use client'

import { learnLine, unitOfLine } from '@curebook/trade/quantity/balance-line'
import { judgeLine } from '#lib/balance/sent-weight.ts'
import { useWords } from '#lib/words.ts'

/** What the example teaches, said at once: how it would be typed at the bench, or why nothing can be learnt. */
export function LineVerdict({ example, shown }: { example: string; shown: string }) {
  const words = useWords()
  return <p role="status">{sentence()}</p>

  function sentence(): string {
    if (example.trim() === '' || shown.trim() === '') return ''
    const learnt = learnLine({ line: example, shown })
    if (!learnt.ok) return learnt.message
    const read = judgeLine(learnt.format, { line: example, at: 0 }, 0)
    if (read.kind === 'not-understood') return read.message
    return words('instruments.lineLearnt', {
      typed: read.typed,
      unit: unitOfLine(learnt.format) === undefined ? 'no' : 'yes',
      words: learnt.format.words.join(' ') || 'none',
    })
  }
}

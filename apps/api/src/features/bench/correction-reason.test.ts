import { readFile } from 'node:fs/promises'
import { expect, it } from 'vitest'
import { isWeighedAgain } from './correction-reason.ts'

it('knows the bench page’s own word for a weighing taken again, and no other of its reasons', async () => {
  const catalogue = new URL('../../../../web/messages/en/bench.json', import.meta.url)
  const words = JSON.parse(await readFile(catalogue, 'utf8')) as Record<string, string>
  const reasons = Object.entries(words).filter(([key]) => key.startsWith('bench.correct.reason.'))
  expect(reasons.filter(([, reason]) => isWeighedAgain(reason)).map(([key]) => key)).toEqual([
    'bench.correct.reason.weighed-again',
  ])
})

it('reads the words at the beginning of a written reason, whole', () => {
  expect(isWeighedAgain('weighed again, the pan was wet')).toBe(true)
  expect(isWeighedAgain('Weighed against the wrong tare')).toBe(false)
  expect(isWeighedAgain('not weighed again')).toBe(false)
})

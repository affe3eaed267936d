import { expect, test } from 'vitest'
import { openReadingDraft } from './reading-draft.ts'

function storage() {
  const kept = new Map<string, string>()
  return {
    kept,
    open: (memberId: string) =>
      openReadingDraft(
        () => ({
          getItem: (name) => kept.get(name) ?? null,
          setItem: (name, text) => void kept.set(name, text),
          removeItem: (name) => void kept.delete(name),
        }),
        memberId,
        'test/weigh/mass/1',
      ),
  }
}

test('what is half typed outlives a reload, for who typed it and nobody else', () => {
  const { open } = storage()
  open('ada').keep('812')
  expect(open('ada').typed()).toBe('812')
  expect(open('mo').typed()).toBe('')
})

test('what was stored is typed nowhere any more, and what another typed stays', () => {
  const { kept, open } = storage()
  open('ada').keep('812')
  open('mo').keep('7')
  open('ada').keep('')
  expect([...kept.values()]).toEqual(['7'])
})

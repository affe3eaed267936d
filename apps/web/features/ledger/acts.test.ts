import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import words from '../../messages/en/ledger.json' with { type: 'json' }
import { actKey, knownActs, subjectWords } from './acts.ts'

const api = fileURLToPath(new URL('../../../api/src', import.meta.url))
const written = readdirSync(api, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts') && !file.includes('.test.') && !file.endsWith('.routes.ts'))
  .flatMap((file) => [...readFileSync(`${api}/${file}`, 'utf8').matchAll(/\baction: '([a-z-]+:[a-z-]+)'/g)])
  .map(([, action]) => action ?? '')
  .filter((action) => !/:read$|^web:/.test(action))

describe('the acts of the ledger', () => {
  test('that the program writes have words, each of them', () => {
    expect(written.length).toBeGreaterThan(30)
    expect([...new Set(written)].filter((action) => actKey(action) === undefined)).toEqual([])
    const keys = Object.keys(words).filter((key) => key.startsWith('ledger.act.'))
    expect(knownActs.map((action) => `ledger.act.${actKey(action) ?? ''}`).toSorted()).toEqual(keys.toSorted())
  })
  test('that only an older or newer program knows are shown as they stand', () => {
    expect(actKey('tea:drink')).toBeUndefined()
  })
  test('are about something that reads as words', () => {
    expect(subjectWords('step_event')).toBe('step event')
    expect(subjectWords('design-revision')).toBe('design revision')
  })
})

import { describe, expect, it } from 'vitest'
import { holdsOn, notAuthorised, spanState } from './authorisation-rules.ts'

const open = { fromDay: '2026-03-01', untilDay: null }
const month = { fromDay: '2026-03-01', untilDay: '2026-03-31' }

describe('an authorisation', () => {
  it('holds on its first and its last day', () => {
    expect(['2026-02-28', '2026-03-01', '2026-03-31', '2026-04-01'].map((day) => holdsOn(month, day))).toEqual([
      false,
      true,
      true,
      false,
    ])
    expect(holdsOn(open, '2030-01-01')).toBe(true)
  })

  it('is marked from 30 days before its end', () => {
    expect(spanState({ fromDay: '2026-01-01', untilDay: '2026-04-01' }, '2026-03-01')).toBe('current')
    expect(spanState({ fromDay: '2026-01-01', untilDay: '2026-03-31' }, '2026-03-01')).toBe('ending')
    expect(spanState(month, '2026-04-01')).toBe('ended')
    expect(spanState(month, '2026-02-28')).toBe('later')
    expect(spanState(open, '2026-03-01')).toBe('current')
  })

  it('binds only where the laboratory has recorded one for the activity', () => {
    expect(notAuthorised('Ada Quill', 'Abrasion', '2026-03-05', { binds: false, spans: [] })).toBeNull()
    expect(notAuthorised('Ada Quill', 'Abrasion', '2026-03-05', { binds: true, spans: [month] })).toBeNull()
    expect(notAuthorised('Ada Quill', 'Abrasion', '2026-03-05', { binds: true, spans: [] })).toBe(
      'Ada Quill was not authorised for “Abrasion” on 2026-03-05.',
    )
    expect(notAuthorised('Ada Quill', 'Abrasion', '2026-04-02', { binds: true, spans: [month] })).toBe(
      'Ada Quill was authorised for “Abrasion” until 2026-03-31 only, not on 2026-04-02.',
    )
  })
})

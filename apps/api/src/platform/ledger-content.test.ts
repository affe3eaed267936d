import { Decimal } from '@curebook/trade/quantity/decimal'
import { describe, expect, test } from 'vitest'
import { ledgerContentOf } from './ledger-content.ts'

describe('a row under a digest', () => {
  test('is the same from what was written and from what the database gives back', () => {
    const written = ledgerContentOf('reading', {
      labId: 'l',
      id: 'r',
      value: new Decimal('812.40'),
      typed: '812,40',
      repeat: 1,
      transcribed: false,
      eventAt: new Date('2026-03-05T14:35:00Z'),
      requestDig: new Uint8Array([1, 255]),
      note: null,
      offsetMs: 0,
    })
    const read = ledgerContentOf('reading', {
      lab_id: 'l',
      id: 'r',
      value: '812.40',
      typed: '812,40',
      repeat: 1,
      transcribed: false,
      event_at: new Date('2026-03-05T14:35:00.000Z'),
      request_dig: Buffer.from([1, 255]),
      note: null,
      unit: null,
      offset_ms: 0,
      written_at: new Date(),
    })
    expect(written).toEqual(read)
    expect(written.row).toEqual({
      lab_id: 'l',
      id: 'r',
      value: '812.4',
      typed: '812,40',
      repeat: '1',
      transcribed: false,
      event_at: '2026-03-05T14:35:00.000Z',
      request_dig: '01ff',
      offset_ms: '0',
    })
  })

  test('keeps every digit of a number, whichever kind of value carries it', () => {
    for (const value of ['0.000000000000000000000000000123', '-12345678901234567890.5', '0', '0.00']) {
      expect(ledgerContentOf('result', { value }).row).toEqual(
        ledgerContentOf('result', { value: new Decimal(value) }).row,
      )
    }
    expect(ledgerContentOf('result', { value: '0.000000000000000000000000000123' }).row.value).toBe(
      '0.000000000000000000000000000123',
    )
  })

  test('takes a day as a day, as a date at midnight or as text', () => {
    expect(ledgerContentOf('result', { observedOn: new Date('2026-03-02T00:00:00Z') }).row).toEqual({
      observed_on: '2026-03-02',
    })
    expect(ledgerContentOf('result', { observed_on: '2026-03-02' }).row).toEqual({ observed_on: '2026-03-02' })
  })
})

import { describe, expect, test } from 'vitest'
import { createReportFormat } from './report-format.ts'
import { reportWords } from './report-words.ts'

const { months } = reportWords('en')
const comma = createReportFormat({ decimalSign: ',', zone: 'Europe/London', months })
const point = createReportFormat({ decimalSign: '.', zone: 'America/Denver', months })

describe('numbers of a report', () => {
  test('digits are cut for the eye, halves to even, and never padded unless a column asks', () => {
    expect(comma.digits('618.5250', 2)).toBe('618,52')
    expect(comma.digits('10', 2)).toBe('10')
    expect(comma.fixed('10', 2)).toBe('10,00')
    expect(point.quantity('685.3666', 'g/m²')).toBe('685.4\u00a0g/m²')
  })
  test('words stay as they are', () => {
    expect(comma.digits('stiff, broke in cup')).toBe('stiff, broke in cup')
    expect(comma.digits('')).toBe('')
  })
  test('a short text takes the sign and keeps a number with its unit', () => {
    expect(comma.numbersIn('0.5 to 1.5 %')).toBe('0,5 to 1,5\u00a0%')
    expect(comma.numbersIn('clause 7.8.2 of TB-109')).toBe('clause 7.8.2 of TB-109')
  })
})

describe('times of a report', () => {
  test('stand in the zone of the laboratory', () => {
    expect(comma.instant('2026-07-01T12:00:00.000Z')).toBe('2026-07-01 13:00')
    expect(point.day('2026-07-01T03:00:00.000Z')).toBe('2026-06-30')
    expect(comma.shortTime('2026-03-05T00:22:00.000Z')).toBe('5\u00a0Mar\u00a000:22')
  })
  test('a day, or words, stay as they are', () => {
    expect(point.day('2026-03-05')).toBe('2026-03-05')
    expect(point.instant('not known')).toBe('not known')
  })
})

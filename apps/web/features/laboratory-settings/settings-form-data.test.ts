import { describe, expect, test } from 'vitest'
import { onFields, readDates, readSettings, readShifts, writeShifts } from './settings-form-data.ts'

describe('the form of the settings', () => {
  test('reads dates one a line or parted by commas, and keeps what is none', () => {
    expect(readDates('2026-12-25, 2026-12-26\n2027-01-01 soon')).toEqual([
      '2026-12-25',
      '2026-12-26',
      '2027-01-01',
      'soon',
    ])
  })
  test('reads a shift a line, and writes it back the same', () => {
    const shifts = [
      { from: '07:30', to: '16:00' },
      { from: '16:00', to: '23:30' },
    ]
    expect(readShifts(' 07:30 to 16:00\n16:00-23:30 \n')).toEqual(shifts)
    expect(readShifts(writeShifts(shifts))).toEqual(shifts)
  })
  test('an empty accreditation is none', () => {
    const form = new FormData()
    form.append('closedDays.weekdays', '6')
    form.append('closedDays.weekdays', '7')
    form.set('accreditation', ' ')
    expect(readSettings(form)).toMatchObject({
      accreditation: null,
      closedDays: { weekdays: [6, 7], dates: [] },
      shifts: [],
      breaks: [],
    })
  })
  test('faults in the lines of a list are one at its field, which says how a line is written', () => {
    const lists = { 'closedDays.weekdays': 'Choose the weekdays', shifts: 'One a line, like 07:30 to 16:00' }
    const faults = { name: 'Enter the name', 'shifts.0.from': 'A time of day, like 07:30' }
    expect(onFields({ ...faults, 'shifts.0.to': 'A time of day, like 07:30' }, lists)).toEqual({
      name: 'Enter the name',
      shifts: 'One a line, like 07:30 to 16:00',
    })
    const same = 'A shift ends at another time than it starts'
    expect(onFields({ 'shifts.1.to': same }, lists)).toEqual({ shifts: same })
    expect(onFields({ shifts: 'Enter at least one shift' }, lists)).toEqual({ shifts: 'Enter at least one shift' })
    const all = 'Leave at least one working day'
    expect(onFields({ 'closedDays.weekdays': all }, lists)).toEqual({ 'closedDays.weekdays': all })
  })
})

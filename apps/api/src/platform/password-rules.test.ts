import { describe, expect, test } from 'vitest'
import { checkNewPassword } from './password-rules.ts'

const context = ['Tern Hollow Surfacing Laboratory', 'manager@ternhollow.example', 'Ada Quill']
const reasonOf = (password: string) => {
  try {
    checkNewPassword('password', password, context)
    return 'taken'
  } catch (error) {
    return (error as Error).message
  }
}

describe('a new password', () => {
  test('has 15 to 128 characters, counted as people count them', () => {
    expect(reasonOf('grout heron nip')).toBe('taken')
    expect(reasonOf('grout heron ni')).toContain('at least 15 characters; this one has 14')
    expect(reasonOf(`${'🪨🦢🌧️🧱'.repeat(2)} vent rope`)).toBe('taken')
    expect(reasonOf('🦢'.repeat(14))).toContain('this one has 14')
    expect(reasonOf('lime kettle orchard wharf '.repeat(5))).toContain('at most 128')
  })

  test('needs no digits, signs or capitals, and may hold any of them', () => {
    expect(reasonOf('cobble lantern furrow tide')).toBe('taken')
    expect(reasonOf('  Ünïcode & spaces stay as typed  ')).toBe('taken')
  })

  test.each([
    ['aaaaaaaaaaaaaaaa', 'repeats one or two characters'],
    ['1234567890123456', 'runs along'],
    ['qwertyuiopasdfghjkl', 'runs along'],
    ['zyxwvutsrqponmlkj', 'runs along'],
    ['abcabcabcabcabcabc', 'repeats one short word'],
    ['passwordpassword', 'most common'],
    ['correct horse battery staple', 'most common'],
    ['ternhollow2026ternhollow', 'others would guess'],
    ['Manager-Laboratory-2026', 'others would guess'],
    ['Curebook!Curebook!1', 'others would guess'],
    ['adaquill adaquill 99', 'others would guess'],
  ])('%s is refused, and the reason given', (password, reason) => {
    expect(reasonOf(password)).toContain(reason)
  })
})

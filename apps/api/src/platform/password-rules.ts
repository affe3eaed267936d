import { invalidField } from './problem.ts'

/** NIST SP 800-63B-4, 3.1.1.2: a password that stands alone has at least 15 characters; counted as code points. */
export const passwordMinimum = 15
export const passwordMaximum = 128

/**
 * Refuses a password that is too short, too long, or expected, with the reason (NIST SP 800-63B-4, 3.1.1.2): no composition
 * rules, the whole password compared with a blocklist. `context` holds words others would guess: name, address, laboratory.
 */
export function checkNewPassword(path: string, password: string, context: string[]): void {
  const length = [...password].length
  if (length < passwordMinimum)
    throw invalidField(
      path,
      `A password has at least ${passwordMinimum} characters; this one has ${length}. A few unrelated words do well.`,
    )
  if (length > passwordMaximum)
    throw invalidField(path, `A password has at most ${passwordMaximum} characters; this one has ${length}.`)
  const reason = reasonToRefuse(password, context)
  if (reason) throw invalidField(path, `Choose another password: ${reason}.`)
}

/** Passwords are compared in one Unicode form, so that the same keys make the same password on every device. */
export function normalPassword(password: string): string {
  return password.normalize('NFC')
}

function reasonToRefuse(password: string, context: string[]): string | undefined {
  const plain = lettersAndDigits(password)
  if (plain.length > 0 && new Set(plain).size <= 2) return 'it repeats one or two characters'
  if (rows.some((row) => isRun(plain, row))) return 'it runs along the alphabet, the digits or the keyboard'
  if (isRepeated(plain)) return 'it repeats one short word'
  if (common.some((word) => plain === word || plain === word + word)) return 'it is among the most common ones'
  const words = context
    .flatMap((text) => [lettersAndDigits(text), ...text.split(/[^\p{L}\p{N}]+/u).map(lettersAndDigits)])
    .filter((word) => word.length >= 4)
  const rest = [...words, ...expected]
    .sort((a, b) => b.length - a.length)
    .reduce((text, word) => text.replaceAll(word, ''), plain)
  // What is left once expected words are taken out must be a password's worth of its own.
  if (rest.replaceAll(/\d/g, '').length < 4)
    return 'it is made of words and numbers that others would guess: names, this product, this laboratory, common words'
  return undefined
}

const rows = [
  'abcdefghijklmnopqrstuvwxyz',
  '1234567890',
  'qwertyuiopasdfghjklzxcvbnm',
  'qwertzuiopasdfghjklyxcvbnm',
  '1qaz2wsx3edc4rfv5tgb6yhn7ujm8ik9ol0p',
]

const expected = [
  'curebook',
  'password',
  'passwort',
  'laboratory',
  'welcome',
  'admin',
  'administrator',
  'manager',
  'technician',
  'engineer',
  'auditor',
  'client',
  'slurry',
  'seal',
  'emulsion',
  'changeme',
  'letmein',
  'qwerty',
  'secret',
  'login',
  'summer',
  'winter',
  'spring',
  'autumn',
  'monday',
]

const common = [
  'passwordpassword',
  'correcthorsebatterystaple',
  'iloveyouiloveyou',
  'thisisapassword',
  'thisismypassword',
  'mypasswordispassword',
  'trustno1trustno1',
  'qwertyuiopasdfgh',
  'administratoradministrator',
  'letmeinletmeinletmein',
  'neverusethispassword',
  'ilovemyhusband',
  'iloveyouforever',
]

function lettersAndDigits(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]/gu, '')
}

function isRun(text: string, row: string): boolean {
  const there = row.repeat(Math.ceil(text.length / row.length) + 1)
  return text.length >= 8 && (there.includes(text) || [...there].reverse().join('').includes(text))
}

function isRepeated(text: string): boolean {
  for (let size = 1; size <= Math.min(5, text.length / 2); size++) {
    if (
      text
        .slice(0, size)
        .repeat(Math.ceil(text.length / size))
        .slice(0, text.length) === text
    )
      return true
  }
  return false
}

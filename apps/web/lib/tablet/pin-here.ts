import { storedRecord } from '../stored-record.ts'

/**
 * A PIN that the server took on this device opens its locked screen without a network too: what is kept is salted and slow
 * to try (PBKDF2, SHA-256, the iterations of the OWASP password storage cheat sheet), ends after five wrong ones, and opens
 * nothing but the screen. It signs nobody in: whoever is signed in already stays so.
 */
const prefix = 'curebook-pin-'
const storedAs = (membershipId: string) => prefix + membershipId
const iterations = 600_000
const mostWrong = 5
/** As long as a session lasts at most: afterwards a password is asked for anyway. */
const longestMs = 12 * 3_600_000

type Kept = {
  readonly salt: string
  readonly hash: string
  readonly wrong: number
  /** Since when, ms. */ readonly at: number
}
type Storage = Pick<globalThis.Storage, 'getItem' | 'setItem' | 'removeItem'>

/** Remembers a PIN that the server has just taken. */
export async function rememberPin(
  storage: Storage,
  membershipId: string,
  pin: string,
  now = Date.now(),
): Promise<void> {
  const salt = crypto.getRandomValues(new Uint8Array(16))
  keep(storage, membershipId, { salt: toText(salt), hash: await hashOf(pin, salt), wrong: 0, at: now })
}

/** `unknown`: this device has nothing to judge it by, so the server has to. */
export async function judgePin(
  storage: Storage,
  membershipId: string,
  pin: string,
  now = Date.now(),
): Promise<'right' | 'wrong' | 'unknown'> {
  const kept = read(storage, membershipId)
  if (kept === undefined) return 'unknown'
  if (now - kept.at > longestMs) {
    forgetPin(storage, membershipId)
    return 'unknown'
  }
  // Counted before it is judged: closing the page takes no attempt back.
  keep(storage, membershipId, { ...kept, wrong: kept.wrong + 1 })
  if ((await hashOf(pin, toBytes(kept.salt))) === kept.hash) {
    keep(storage, membershipId, { ...kept, wrong: 0 })
    return 'right'
  }
  if (kept.wrong + 1 >= mostWrong) forgetPin(storage, membershipId)
  return 'wrong'
}

export function forgetPin(storage: Storage, membershipId: string): void {
  storage.removeItem(storedAs(membershipId))
}

/** Of everybody: the device is put down, or a PIN was changed. */
export function forgetPins(storage: globalThis.Storage): void {
  for (const name of Object.keys(storage)) if (name.startsWith(prefix)) storage.removeItem(name)
}

function keep(storage: Storage, membershipId: string, kept: Kept): void {
  storage.setItem(storedAs(membershipId), JSON.stringify(kept))
}

function read(storage: Storage, membershipId: string): Kept | undefined {
  const { salt, hash, wrong, at } = storedRecord(storage.getItem(storedAs(membershipId)))
  return typeof salt === 'string' && typeof hash === 'string' && typeof wrong === 'number' && typeof at === 'number'
    ? { salt, hash, wrong, at }
    : undefined
}

async function hashOf(pin: string, salt: Uint8Array<ArrayBuffer>): Promise<string> {
  const key = await crypto.subtle.importKey('raw', new TextEncoder().encode(pin), 'PBKDF2', false, ['deriveBits'])
  const bits = await crypto.subtle.deriveBits({ name: 'PBKDF2', hash: 'SHA-256', salt, iterations }, key, 256)
  return toText(new Uint8Array(bits))
}

const toText = (bytes: Uint8Array) => btoa(String.fromCharCode(...bytes))
const toBytes = (text: string) => Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0))

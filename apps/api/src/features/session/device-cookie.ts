import { createHash, randomBytes } from 'node:crypto'

/** Beside the session's cookie: says that this is the same browser, and nothing of who uses it. */
const cookieName = 'curebook.device'
const seconds = 12 * 3600

/** The digest of a device's token out of a request's cookies; undefined without one. */
export function deviceTokenHash(cookies: string | undefined): Buffer | undefined {
  for (const pair of cookies?.split(';') ?? []) {
    const [name, token] = pair.trim().split('=')
    if (name?.replace(/^__Secure-/, '') === cookieName && token && /^[\w-]{43}$/.test(token)) return hashOf(token)
  }
  return undefined
}

/** A token for a new device: its digest to be kept, and the cookie that carries it. */
export function newDeviceToken(secure: boolean): { tokenHash: Buffer; cookie: string } {
  const token = randomBytes(32).toString('base64url')
  const ending = `Max-Age=${seconds}; Path=/; HttpOnly; SameSite=Lax${secure ? '; Secure' : ''}`
  return { tokenHash: hashOf(token), cookie: `${secure ? '__Secure-' : ''}${cookieName}=${token}; ${ending}` }
}

const hashOf = (token: string) => createHash('sha256').update(token).digest()

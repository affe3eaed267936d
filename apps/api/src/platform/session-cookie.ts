import { createHmac, timingSafeEqual } from 'node:crypto'

/** The session cookie's name; browsers keep a `__Secure-` name on https only. */
export function sessionCookieName(publicUrl: string | undefined): string {
  return `${publicUrl?.startsWith('https:') ? '__Secure-' : ''}curebook.session_token`
}

/** The cookie's value for a session's token, signed the way the account library signs it. */
export function signToken(token: string, secret: string): string {
  return encodeURIComponent(`${token}.${signatureOf(token, secret)}`)
}

/** The session's token out of a request's Cookie header; undefined when it is missing or not signed by us. */
export function readToken(cookies: string | undefined, name: string, secret: string): string | undefined {
  for (const pair of cookies?.split(';') ?? []) {
    const at = pair.indexOf('=')
    if (at < 0 || pair.slice(0, at).trim() !== name) continue
    const value = decode(pair.slice(at + 1).trim())
    const dot = value.lastIndexOf('.')
    if (dot < 1) continue
    const token = value.slice(0, dot)
    const given = Buffer.from(value.slice(dot + 1))
    const right = Buffer.from(signatureOf(token, secret))
    if (given.length === right.length && timingSafeEqual(given, right)) return token
  }
  return undefined
}

function signatureOf(token: string, secret: string): string {
  return createHmac('sha256', secret).update(token).digest('base64')
}

function decode(value: string): string {
  try {
    return decodeURIComponent(value)
  } catch {
    return ''
  }
}

import { randomBytes } from 'node:crypto'

export { hashOf, newCode, plainCode } from '#platform/typed-code'

const cookieName = 'curebook.wall'
/** Longer than any browser keeps a cookie (400 days); each look makes it last anew. */
const seconds = 400 * 86_400

/** A key for a browser on the wall. */
export function newKey(): string {
  return randomBytes(32).toString('base64url')
}

/** The key out of a request's cookies; undefined without one. */
export function keyOf(cookies: string | undefined): string | undefined {
  for (const pair of cookies?.split(';') ?? []) {
    const [name, key] = pair.trim().split('=')
    if (name?.replace(/^__Secure-/, '') === cookieName && key && /^[\w-]{43}$/.test(key)) return key
  }
  return undefined
}

/** Carries the key to the wall's address and to no other; without a key it takes the cookie away. */
export function cookieOf(key: string | null, secure: boolean): string {
  const ending = `Max-Age=${key === null ? 0 : seconds}; Path=/api/wall; HttpOnly; SameSite=Strict${secure ? '; Secure' : ''}`
  return `${secure ? '__Secure-' : ''}${cookieName}=${key ?? ''}; ${ending}`
}

import { createHash } from 'node:crypto'

/** What may stand in canonical JSON. Measured numbers and times go in as strings, so that no digit depends on a parser. */
export type Canonical =
  string | number | boolean | null | readonly Canonical[] | { readonly [key: string]: Canonical | undefined }

/**
 * Canonical JSON text after RFC 8785: keys sorted by UTF-16 code units, no blanks, ECMAScript's number and string forms.
 * Keys whose value is undefined are left out. Throws RangeError for what JSON cannot say (NaN, Infinity, lone surrogates).
 */
export function canonicalJson(value: Canonical): string {
  if (value === null || typeof value === 'boolean') return String(value)
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError(`JSON has no number ${value}`)
    return JSON.stringify(value)
  }
  if (typeof value === 'string') {
    if (/\p{Surrogate}/u.test(value)) throw new RangeError('JSON text holds a lone surrogate, which has no UTF-8 form')
    return JSON.stringify(value)
  }
  if (Array.isArray(value)) return `[${value.map((member: Canonical) => canonicalJson(member)).join(',')}]`
  if (Object.getPrototypeOf(value) !== Object.prototype && Object.getPrototypeOf(value) !== null) {
    throw new RangeError(`Canonical JSON takes plain values only, not ${value.constructor.name}`)
  }
  const members = value as { readonly [key: string]: Canonical | undefined }
  const keys = Object.keys(members).filter((key) => members[key] !== undefined)
  return `{${keys
    .sort()
    .map((key) => `${canonicalJson(key)}:${canonicalJson(members[key]!)}`)
    .join(',')}}`
}

/** SHA-256 of exactly this text's UTF-8 bytes. */
export function sha256(text: string): Buffer {
  return createHash('sha256').update(text, 'utf8').digest()
}

/** SHA-256 of a value's canonical JSON text, 32 bytes: the digest of a request, of an edition, of a signed content. */
export function digestOf(value: Canonical): Buffer {
  return sha256(canonicalJson(value))
}

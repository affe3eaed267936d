/**
 * A UUIDv7, made where the thing is made, so that a second sending is the same thing. Works without a secure context
 * (a tablet on the laboratory's own network), where `crypto.randomUUID` is missing.
 */
export function newId(milliseconds: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  for (let index = 0; index < 6; index += 1) bytes[index] = Math.floor(milliseconds / 256 ** (5 - index)) % 256
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}

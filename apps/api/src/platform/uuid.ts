import { randomBytes } from 'node:crypto'

let lastMs = 0
let counter = 0

/**
 * A new id, UUIDv7 with a counter (RFC 9562, 6.2, method 1): those that one process makes within a millisecond keep their
 * order, so that what one transaction records is sealed in the order of recording. Its time is never read.
 */
export function newId(): string {
  const bytes = randomBytes(16)
  const now = Date.now()
  if (now > lastMs) {
    lastMs = now
    counter = bytes.readUInt16BE(6) & 0x07ff
  } else if ((counter += 1) > 0x0fff) {
    lastMs += 1
    counter = 0
  }
  bytes.writeUIntBE(lastMs, 0, 6)
  bytes.writeUInt16BE(0x7000 | counter, 6)
  bytes[8] = (bytes[8]! & 0x3f) | 0x80
  const hex = bytes.toString('hex')
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-')
}

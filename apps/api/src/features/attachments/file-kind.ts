import type { AttachmentType } from '@curebook/contract/attachments'

const beginnings = {
  // ISO/IEC 10918-1: start of image, then a marker.
  'image/jpeg': [0xff, 0xd8, 0xff],
  // ISO/IEC 15948, 5.2
  'image/png': [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
  // ISO 32000-1, 7.5.2: "%PDF-"
  'application/pdf': [0x25, 0x50, 0x44, 0x46, 0x2d],
} as const

/** What a file is by its first bytes, whatever it calls itself; undefined for what is not taken. CSV is text without controls. */
export function kindOfFile(bytes: Uint8Array): AttachmentType | undefined {
  for (const [kind, beginning] of Object.entries(beginnings))
    if (bytes.length > beginning.length && beginning.every((byte, at) => bytes[at] === byte))
      return kind as AttachmentType
  return isPlainText(bytes) ? 'text/csv' : undefined
}

/** Readable as UTF-8 or, as older spreadsheets write, as one byte a sign; no control signs but tab and line ends. */
function isPlainText(bytes: Uint8Array): boolean {
  if (bytes.length === 0) return false
  const isControl = (byte: number) => (byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) || byte === 0x7f
  if (bytes.some(isControl)) return false
  // A page or script by its first sign would be no list of values.
  return !/^[\s\uFEFF]*</.test(Buffer.from(bytes.subarray(0, 200)).toString('utf8'))
}

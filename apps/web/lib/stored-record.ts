export type StoredRecord = Readonly<Record<string, unknown>>

/** A record that was kept on the device as text; what is missing, broken or no record is an empty one. */
export function storedRecord(text: string | null): StoredRecord {
  try {
    const read: unknown = JSON.parse(text ?? '{}')
    return isStoredRecord(read) ? read : {}
  } catch {
    return {}
  }
}

export function isStoredRecord(value: unknown): value is StoredRecord {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

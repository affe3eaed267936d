/** The text of a file: UTF-8, else as older spreadsheets write it, so that µ, ° and ² are what they were. */
export function textOf(bytes: ArrayBuffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

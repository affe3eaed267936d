/** Marks a form that takes what instruments send before any other field of the page. */
export const takesInput = { 'data-takes-input': '' } as const

/**
 * Whether what an instrument sends or types goes elsewhere than into this field: a dialog is open, or a form that takes it
 * first, in which the field does not stand.
 */
export function isTakenElsewhere(
  field: HTMLElement | null | undefined,
  page: Pick<Document, 'querySelector'> = document,
): boolean {
  if (page.querySelector('[role="dialog"]') !== null) return true
  const form = page.querySelector('[data-takes-input]')
  return form !== null && (field == null || !form.contains(field))
}

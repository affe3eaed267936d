/** Eight signs, with a dash in the middle as shown or without as scanned; no specimen has such a code. */
const form = /^[A-HJKMNP-Z2-9]{4}-?[A-HJKMNP-Z2-9]{4}$/

/** Whether what was typed is the code of a colleague who hands over running work. */
export function isHandOverCode(typed: string): boolean {
  return form.test(typed.toUpperCase().replaceAll(/\s+/g, ''))
}

/** Where the work behind a code is looked at. The code stands behind a # and so is in no request's address. */
export function takeOverPlace(short: string, typed: string): string {
  return `/l/${short}/bench/take-over#${typed.toUpperCase().replaceAll(/[^A-Z2-9]/g, '')}`
}

/**
 * A check code as a person types it from paper: any letter case, with or without the hyphens, with spaces. Only what can
 * stand in an address is left; whether there is such a code the server says.
 */
export function readTypedCode(text: string): string {
  return text
    .trim()
    .toUpperCase()
    .replaceAll(/[\s\u2010-\u2015]+/g, '-')
    .replaceAll(/[^A-Z0-9-]/g, '')
    .replaceAll(/-+/g, '-')
    .replaceAll(/^-|-$/g, '')
}

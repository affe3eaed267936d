import { readFileSync } from 'node:fs'

/** The version of this build, kept with every result and printed by the validation. */
export function buildVersion(): string {
  const text = readFileSync(new URL('../../../../package.json', import.meta.url), 'utf8')
  return (JSON.parse(text) as { version: string }).version
}

import { readFileSync } from 'node:fs'

const file = new URL('../../packages/start/src/demo-sign-ins.json', import.meta.url)

/** How the demonstration laboratory is entered; the starter prints the same. */
export function demoSignIns(): { shortName: string; technician: string; password: string } {
  const { password } = JSON.parse(readFileSync(file, 'utf8')) as { password: string }
  return { shortName: 'ternhollow', technician: 'technician@ternhollow.example', password }
}

import { readFileSync } from 'node:fs'

/** Prints who can sign in to the demo laboratory. */
export function showSignIns() {
  const { password, people } = JSON.parse(readFileSync(new URL('./demo-sign-ins.json', import.meta.url), 'utf8'))
  const width = Math.max(...people.map((/** @type {{ email: string }} */ { email }) => email.length))
  const lines = people.map(
    (/** @type {{ email: string, role: string }} */ { email, role }) => `  ${email.padEnd(width)}  ${role}`,
  )
  process.stdout.write(
    `\nSign in to the demo laboratory as\n${lines.join('\n')}\nEverybody’s password: ${password}\n\nCtrl-C ends it; the next start keeps the data.\n`,
  )
}

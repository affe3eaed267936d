import { randomBytes } from 'node:crypto'
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import path from 'node:path'
import { StartError } from './start-error.ts'

/** Passwords of the four database logins and the secret that signs sessions. */
export type Secrets = { owner: string; app: string; identity: string; sealer: string; authSecret: string }

const names = ['owner', 'app', 'identity', 'sealer', 'authSecret'] as const

/**
 * The secrets of an installation, from `secrets.json` (0600) of its data folder; made at random the first time.
 * Throws StartError when the file is there and cannot be read, so that nothing is locked out by new passwords.
 */
export async function readOrMakeSecrets(dataFolder: string): Promise<Secrets> {
  const file = path.join(dataFolder, 'secrets.json')
  let text: string | undefined
  try {
    text = await readFile(file, 'utf8')
  } catch (error) {
    if ((error as { code?: string }).code !== 'ENOENT')
      throw new StartError(`The secrets in ${file} cannot be read: ${(error as Error).message}`)
  }
  if (text !== undefined) return parsed(text, file)
  const secrets = Object.fromEntries(names.map((name) => [name, randomBytes(24).toString('base64url')])) as Secrets
  // Made whole under another name first: a start cut off here leaves no half of a file.
  await mkdir(dataFolder, { recursive: true })
  const unfinished = `${file}.${process.pid}`
  await writeFile(unfinished, `${JSON.stringify(secrets, null, 2)}\n`, { mode: 0o600 })
  await rename(unfinished, file)
  return secrets
}

/**
 * The passwords of the three logins: those of APP_PASSWORD, IDENTITY_PASSWORD and SEALER_PASSWORD where the servers run
 * elsewhere and are given them, else this installation's own.
 */
export async function loginPasswords(dataFolder: string): Promise<{ app: string; identity: string; sealer: string }> {
  const { APP_PASSWORD: app, IDENTITY_PASSWORD: identity, SEALER_PASSWORD: sealer } = process.env
  return app && identity && sealer ? { app, identity, sealer } : readOrMakeSecrets(dataFolder)
}

function parsed(text: string, file: string): Secrets {
  try {
    const secrets = JSON.parse(text) as Partial<Secrets>
    if (names.every((name) => typeof secrets[name] === 'string' && secrets[name].length >= 16))
      return secrets as Secrets
  } catch {
    // The sentence below says the same.
  }
  throw new StartError(
    `The file ${file} does not hold the secrets of this installation. Put back the one that belongs to this data.`,
  )
}

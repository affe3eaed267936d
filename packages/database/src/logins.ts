import pg from 'pg'
import { StartError } from './start-error.ts'

/** The three logins of the server process; the owner's is the starter's alone. */
export const loginNames = { app: 'curebook_app', identity: 'curebook_identity', sealer: 'curebook_sealer' } as const

export type LoginPasswords = Record<keyof typeof loginNames, string>
export type LoginUrls = Record<keyof typeof loginNames, string>

/**
 * Makes the three logins, or sets their passwords, and returns their addresses of the owner's database. None may bypass a
 * policy or own anything. Logins belong to the whole PostgreSQL server, not to one database of it.
 * Throws StartError when the owner may not make logins.
 */
export async function ensureLogins(ownerUrl: string, passwords: LoginPasswords): Promise<LoginUrls> {
  const client = new pg.Client({ connectionString: ownerUrl })
  await client.connect()
  try {
    for (const [key, name] of Object.entries(loginNames)) {
      const password = passwords[key as keyof LoginPasswords]
      if (await accepts(urlFor(ownerUrl, name, password))) continue
      const { rowCount } = await client.query('select from pg_roles where rolname = $1', [name])
      const verb = rowCount === 0 ? 'create' : 'alter'
      await client.query(
        `${verb} role ${name} login nosuperuser nocreatedb nocreaterole noreplication nobypassrls password ${client.escapeLiteral(password)}`,
      )
    }
  } catch (error) {
    if ((error as { code?: string }).code === '42501') {
      throw new StartError(
        `The login in DATABASE_URL may not make the logins ${Object.values(loginNames).join(', ')}. Give it CREATEROLE, or make them yourself and name them in DATABASE_URL_APP, DATABASE_URL_IDENTITY and DATABASE_URL_SEALER.`,
      )
    }
    throw error
  } finally {
    await client.end()
  }
  return loginUrls(ownerUrl, passwords)
}

/** The addresses of the three logins on the owner's server and database. */
export function loginUrls(ownerUrl: string, passwords: LoginPasswords): LoginUrls {
  return {
    app: urlFor(ownerUrl, loginNames.app, passwords.app),
    identity: urlFor(ownerUrl, loginNames.identity, passwords.identity),
    sealer: urlFor(ownerUrl, loginNames.sealer, passwords.sealer),
  }
}

/** The same address with another database. */
export function withDatabase(url: string, database: string): string {
  const changed = new URL(url)
  changed.pathname = `/${encodeURIComponent(database)}`
  return changed.href
}

function urlFor(ownerUrl: string, name: string, password: string): string {
  const url = new URL(ownerUrl)
  url.username = name
  url.password = encodeURIComponent(password)
  return url.href
}

async function accepts(url: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: url })
  try {
    await client.connect()
    const { rows } = await client.query<{ fine: boolean }>(
      'select not (rolsuper or rolbypassrls) as fine from pg_roles where rolname = current_user',
    )
    return rows[0]!.fine
  } catch {
    return false
  } finally {
    await client.end().catch(() => undefined)
  }
}

/** An address as it may be shown. */
export function withoutPassword(url: string): string {
  const shown = new URL(url)
  shown.password = ''
  return shown.href
}

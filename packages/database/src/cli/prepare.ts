import { discardUnfinishedDemo, countLaboratories, holdsDemo } from '../demo-mark.ts'
import { ensureLogins } from '../logins.ts'
import { migrate } from '../migrate.ts'
import { openOwner } from '../open-owner.ts'
import { loginPasswords, readOrMakeSecrets } from '../secrets.ts'
import { StartError } from '../start-error.ts'

/**
 * Brings the database to where the server can start. For the starter, which reads one JSON object a line:
 * { step, … } when something begins, { done } when it ended, then { ready } with the logins' addresses, or { failed }.
 */
type Message = { step: string } | { done: string } | { failed: string; plain: boolean } | { ready: Ready }
type Ready = {
  urls: { app: string; identity: string; sealer: string }
  authSecret: string
  laboratories: number
  /** Whether the demo's people are in it. */
  demo: boolean
  /** Of the embedded server, so that the starter can stop it. */
  cluster: string | null
  /** Whether that server ran before. */
  reused: boolean
}

const tell = (message: Message) => process.stdout.write(`${JSON.stringify(message)}\n`)

async function prepare(): Promise<Ready> {
  tell({ step: process.env.DATABASE_URL ? 'Reaching the database of DATABASE_URL' : 'Starting the embedded database' })
  const owner = await openOwner()
  tell({ done: owner.embedded ? (owner.embedded.reused ? 'it was still running' : '') : '' })

  tell({ step: 'Bringing the database up to date' })
  const secrets = await readOrMakeSecrets(owner.dataFolder)
  const given = givenLogins()
  const urls = given ?? (await ensureLogins(owner.ownerUrl, await loginPasswords(owner.dataFolder)))
  const discarded = await discardUnfinishedDemo(owner.ownerUrl)
  const applied = await migrate(owner.ownerUrl)
  const laboratories = await countLaboratories(owner.ownerUrl)
  tell({
    done: [
      discarded ? 'a demo that was cut off was taken away' : '',
      applied.length === 0 ? 'nothing to do' : `${applied.length} migrations`,
    ]
      .filter(Boolean)
      .join(', '),
  })
  return {
    urls,
    authSecret: process.env.AUTH_SECRET || secrets.authSecret,
    laboratories,
    demo: await holdsDemo(owner.ownerUrl),
    cluster: owner.embedded?.cluster ?? null,
    reused: owner.embedded?.reused ?? false,
  }
}

/** Logins made by hand on one's own server; all three or none. */
function givenLogins(): Ready['urls'] | undefined {
  const { DATABASE_URL_APP: app, DATABASE_URL_IDENTITY: identity, DATABASE_URL_SEALER: sealer } = process.env
  if (app && identity && sealer) return { app, identity, sealer }
  if (app || identity || sealer)
    throw new StartError(
      'DATABASE_URL_APP, DATABASE_URL_IDENTITY and DATABASE_URL_SEALER belong together: set all three, or none and the logins are made for you.',
    )
  return undefined
}

try {
  tell({ ready: await prepare() })
} catch (error) {
  const { message, stack } = error as Error
  tell({ failed: error instanceof StartError ? message : (stack ?? message), plain: error instanceof StartError })
  process.exitCode = 1
}

import { openDatabase } from '@curebook/database/open-database'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import { Client } from 'pg'
import { parseArgs } from 'node:util'
import { systemActor } from '#platform/actor'
import { createSystemClock } from '#platform/clock'
import { readConfig } from '../config.ts'
import { createServices } from '../services.ts'

const usage = `Checks every laboratory's ledger and names the first break.
  --laboratory <id>           this laboratory only
  --head <number>:<hash>      also against a head on paper (with --laboratory)`

/** `npm run ledger:verify`: exit 0 when every ledger is whole, 1 when one is not, 2 when it could not be checked. */
async function run(): Promise<number> {
  const { values } = parseArgs({
    options: { laboratory: { type: 'string' }, head: { type: 'string' }, help: { type: 'boolean' } },
  })
  if (values.help || (values.head !== undefined && values.laboratory === undefined)) {
    process.stdout.write(`${usage}\n`)
    return values.help ? 0 : 2
  }
  const config = readConfig()
  const { appUrl, identityUrl, sealerUrl } = config.secrets
  const database = await openDatabase({ appUrl, identityUrl, sealerUrl })
  const services = createServices({
    database,
    clock: createSystemClock(),
    methods: builtInMethods,
    config,
    log: console,
  })
  try {
    let whole = true
    for (const labId of values.laboratory ? [values.laboratory] : await laboratories(sealerUrl)) {
      const verdict = await services.ledger.verify(systemActor(labId), { printed: printedHead(values.head) })
      whole &&= verdict.whole
      const facts = `${verdict.entries} entries, ${verdict.rowsCompared} rows that they hold, ${verdict.headsCompared} printed heads compared`
      process.stdout.write(
        verdict.whole
          ? `Laboratory ${labId}: whole. ${facts}. Head ${verdict.head.seq}:${verdict.head.hash}\n`
          : `Laboratory ${labId}: BROKEN (${verdict.firstBreak!.kind}). ${verdict.firstBreak!.message}\n`,
      )
    }
    return whole ? 0 : 1
  } finally {
    await services.close()
    await database.close()
  }
}

/** The laboratories that have a ledger; the sealer's login is the one that sees them all. */
async function laboratories(sealerUrl: string): Promise<string[]> {
  const client = new Client({ connectionString: sealerUrl })
  await client.connect()
  try {
    const { rows } = await client.query<{ lab_id: string }>('select distinct lab_id from ledger_entry order by lab_id')
    return rows.map(({ lab_id }) => lab_id)
  } finally {
    await client.end()
  }
}

function printedHead(text: string | undefined): { seq: number; hash: string } | undefined {
  if (text === undefined) return undefined
  const [, seq, hash] = /^(\d+):([0-9a-f]{64})$/.exec(text.trim().toLowerCase()) ?? []
  if (seq === undefined || hash === undefined)
    throw new Error('A head is written as its number, a colon, and 64 hexadecimal digits.')
  return { seq: Number(seq), hash }
}

run().then(
  (code) => {
    process.exitCode = code
  },
  (error: Error) => {
    process.stderr.write(`The ledger could not be checked. ${error.message}\n`)
    process.exitCode = 2
  },
)

import type { SpecimenRow } from '@curebook/contract/designs'
import type { MailWishes } from '@curebook/contract/mail'
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises'
import { createServer, type Server, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { aSeries, makePlannedDesign } from '../../../../../tests/support/factories/design.ts'
import {
  makeLaboratory,
  type PersonKey,
  type TestLaboratory,
} from '../../../../../tests/support/factories/laboratory.ts'
import { createMailTransport } from './mail-transport.ts'
import { createMailService } from './mail.service.ts'

let testApp: TestApp
let lab: TestLaboratory
let specimens: SpecimenRow[]
let projectId: string
let folder: string

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'curebook-mail-'))
  testApp = await startTestApp({
    now: '2026-03-02T08:00:00Z',
    config: {
      publicUrl: 'https://lab.example',
      mail: { smtpUrl: undefined, from: 'Curebook <curebook@lab.example>', folder },
    },
  })
})
afterAll(async () => {
  await testApp.close()
  await rm(folder, { recursive: true, force: true })
})
beforeEach(async () => {
  testApp.clock.set('2026-03-02T08:00:00Z')
  await rm(folder, { recursive: true, force: true })
  // What earlier tests wrote waits no more.
  await testApp.services.mail.round()
  await rm(folder, { recursive: true, force: true })
  lab = await makeLaboratory(testApp)
  const planned = await makePlannedDesign(
    testApp,
    lab,
    aSeries({ methods: [{ methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: [] }] }),
  )
  specimens = planned.specimens
  projectId = planned.design.projectId
})

const inLab = <T>(work: Parameters<typeof testApp.services.laboratory.inLaboratory<T>>[1]) =>
  testApp.services.laboratory.inLaboratory(lab.people.manager.actor, work)
const nothing: MailWishes = { windowMinutes: null, notices: false, reports: false, answers: false }
const wish = (who: PersonKey, wishes: Partial<MailWishes>) =>
  lab
    .as(who)
    .put(lab.path('/mail/wishes'))
    .send({ ...nothing, ...wishes })
const assign = (to: PersonKey | null, by: PersonKey = 'manager') =>
  lab
    .as(by)
    .post(lab.path('/assignments'))
    .set('idempotency-key', newId())
    .send({
      testIds: specimens.map(({ testId }) => testId),
      to: to === null ? null : lab.people[to].actor.membershipId,
    })
    .expect(200)
const closeAt = (specimen: SpecimenRow, closesAt: string) =>
  inLab(({ prisma }) =>
    prisma.due.updateMany({ where: { labId: lab.labId, testId: specimen.batchTestId! }, data: { closesAt } }),
  )
/** What stands in the folder, its lines as long as they were written. */
const sent = async () => {
  const names = (await readdir(folder).catch(() => [])).sort()
  const files = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')))
  return files.map((file) => file.replaceAll('=\r\n', ''))
}
const state = async () => (await lab.as('manager').get(lab.path('/mail')).expect(200)).body

/** A mail server that takes what it is given, or refuses it while `refuses` says so. */
async function aMailServer() {
  const taken: string[] = []
  const fault = { refuses: true }
  const open = new Set<Socket>()
  const server: Server = createServer((socket) => {
    open.add(socket)
    let data: string | undefined
    socket.write('220 mail.example\r\n')
    let rest = ''
    socket.on('error', () => undefined)
    socket.on('data', (chunk) => {
      rest += chunk.toString('utf8')
      for (let end = rest.indexOf('\r\n'); end >= 0; end = rest.indexOf('\r\n')) {
        const line = rest.slice(0, end)
        rest = rest.slice(end + 2)
        if (data !== undefined) {
          if (line === '.') {
            taken.push(data)
            data = undefined
            socket.write('250 taken\r\n')
          } else data += `${line}\n`
        } else if (line === 'DATA') {
          data = ''
          socket.write('354 go on\r\n')
        } else if (line.startsWith('RCPT') && fault.refuses) socket.write('450 the box is locked\r\n')
        else if (line === 'QUIT') socket.end('221 bye\r\n')
        else socket.write('250 mail.example\r\n')
      }
    })
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as { port: number }
  return {
    taken,
    fault,
    url: `smtp://127.0.0.1:${port}`,
    close: () => {
      for (const socket of open) socket.destroy()
      server.close()
    },
  }
}
/** The mail of another process on the same database, by a mail server. */
const mailBy = (smtpUrl: string, app: Pick<TestApp, 'database' | 'services'> = testApp) =>
  createMailService({
    laboratory: app.services.laboratory,
    database: app.database,
    methods: app.services.methods,
    publicUrl: 'https://lab.example',
    transport: createMailTransport({ smtpUrl, from: 'curebook@lab.example', folder }),
  })

describe('a window that closes', () => {
  it('is mailed once to its person, within the minutes asked for; many at once are one mail', async () => {
    await assign('technician')
    await wish('technician', { windowMinutes: 30, notices: false }).expect(200)
    await wish('technician2', { windowMinutes: 60, notices: false }).expect(200)
    await closeAt(specimens[0]!, '2026-03-02T08:40:00Z')
    await closeAt(specimens[1]!, '2026-03-02T08:42:00Z')
    await testApp.services.mail.round()
    expect(await sent()).toEqual([])
    testApp.clock.advance({ minutes: 12 })
    await Promise.all([testApp.services.mail.round(), testApp.services.mail.round()])
    await testApp.services.mail.round()
    const [mail, ...more] = await sent()
    expect(more).toEqual([])
    expect(mail).toContain(`To: ${lab.people.technician.email}`)
    expect(mail).toContain('Subject: 2 windows close at 08:40')
    expect(mail).toContain(`https://lab.example/l/${lab.shortName}/bench`)
    expect(mail).toContain('Weigh the components')
  })

  it('is not mailed when its act is done, nor unasked, nor after it was given to somebody else', async () => {
    await assign('technician')
    for (const specimen of specimens) await closeAt(specimen, '2026-03-02T08:20:00Z')
    await testApp.services.mail.round()
    expect(await sent()).toEqual([])
    await assign('technician2')
    await wish('technician', { windowMinutes: 60, notices: false }).expect(200)
    await testApp.services.mail.round()
    expect(await sent()).toEqual([])
    await wish('technician2', { windowMinutes: 60, notices: false }).expect(200)
    await inLab(({ prisma }) => prisma.due.deleteMany({ where: { labId: lab.labId } }))
    await testApp.services.mail.round()
    expect(await sent()).toEqual([])
  })
})

describe('a notice', () => {
  it('is mailed to whoever asked for it, with by whom and no more of anybody', async () => {
    await wish('technician', { windowMinutes: null, notices: true }).expect(200)
    await assign('technician')
    await assign('technician2')
    await testApp.services.mail.round()
    const mails = await sent()
    expect(mails).toHaveLength(2)
    expect(mails[0]).toContain('Subject: Person manager gave you 3 tests')
    expect(mails[1]).toContain('Subject: Person manager gave 3 tests of yours to somebody else')
    for (const mail of mails) {
      expect(mail).toContain('From: Curebook <curebook@lab.example>')
      expect(mail).not.toContain('Marrowdale')
    }
  })
})

describe('what is no more one’s own', () => {
  it('is mailed as taken over or taken back where nobody gave it to a third one', async () => {
    await wish('technician', { windowMinutes: null, notices: true }).expect(200)
    await assign('technician')
    await assign('manager')
    await assign('technician')
    await assign(null)
    await testApp.services.mail.round()
    const subjects = (await sent()).map((mail) => /^Subject: (.*)$/m.exec(mail)?.[1]?.trim())
    expect(subjects).toEqual([
      'Person manager gave you 3 tests',
      'Person manager took over 3 tests of yours',
      'Person manager gave you 3 tests',
      'Person manager took back 3 tests from you',
    ])
  })
})

describe('a client', () => {
  it('is mailed that a report was issued or a question answered, in which project and nothing more, if they want it', async () => {
    await wish('client', { reports: true }).expect(200)
    await wish('otherClient', { reports: true, answers: true }).expect(200)
    expect((await lab.as('client').get(lab.path('/mail/wishes')).expect(200)).body.reports).toBe(true)
    expect((await lab.as('otherClient').get(lab.path('/mail/wishes')).expect(200)).body.answers).toBe(true)
    const tell = (kind: 'reports' | 'answers') =>
      inLab((tx) => testApp.services.mail.writeToClient(tx, { kind, projectId, clientId: lab.clientId }))
    await tell('reports')
    await tell('answers')
    await testApp.services.mail.round()
    const [mail, ...more] = await sent()
    expect(more).toEqual([])
    expect(mail).toContain(`To: ${lab.people.client.email}`)
    expect(mail).toContain('Subject: A report was issued')
    expect(mail).toContain(`https://lab.example/l/${lab.shortName}/projects/${projectId}`)
    const question = newId()
    await wish('client', { answers: true }).expect(200)
    await lab
      .as('client')
      .post(lab.path('/own-questions'))
      .send({ id: question, projectId, reportId: null, text: 'When?' })
      .expect(201)
    await lab
      .as('engineer')
      .post(lab.path(`/questions/${question}/answers`))
      .send({ id: newId(), text: 'On Friday, at 7.25 %.' })
      .expect(201)
    await testApp.services.mail.round()
    const answered = (await sent()).find((one) => one.includes('Subject: Your question was answered'))
    expect(answered).toBeDefined()
    expect(answered).not.toContain('7.25')
    expect(answered).not.toContain('Pellworth')
  })
})

describe('sending', () => {
  const oneMail = async () => {
    await wish('technician', { windowMinutes: null, notices: true }).expect(200)
    await assign('technician')
  }

  it('that fails is tried again after growing waits; meanwhile the manager sees what waits and why', async () => {
    const server = await aMailServer()
    try {
      await oneMail()
      const mail = mailBy(server.url)
      await mail.round()
      expect(await state()).toMatchObject({ waiting: 1, failure: { error: expect.stringContaining('locked') } })
      const attempts = () => inLab(({ prisma }) => prisma.mailAttempt.count({ where: { labId: lab.labId } }))
      await mail.round()
      expect(await attempts()).toBe(1)
      testApp.clock.advance({ minutes: 1 })
      await mail.round()
      testApp.clock.advance({ minutes: 1 })
      await mail.round()
      expect(await attempts()).toBe(2)
      server.fault.refuses = false
      testApp.clock.advance({ minutes: 1 })
      await mail.round()
      await mail.round()
      expect(server.taken).toHaveLength(1)
      expect(server.taken[0]).toContain(`To: ${lab.people.technician.email}`)
      expect(await state()).toEqual({ waiting: 0, failure: null })
    } finally {
      server.close()
    }
  })

  it('by two servers at once sends a mail once', async () => {
    const server = await aMailServer()
    server.fault.refuses = false
    try {
      await oneMail()
      const another = await testApp.startAnother()
      const there = { services: another.services, database: testApp.database }
      await Promise.all([mailBy(server.url).round(), mailBy(server.url, there).round()])
      await another.close()
      expect(server.taken).toHaveLength(1)
      const attempts = await inLab(({ prisma }) => prisma.mailAttempt.findMany({ where: { labId: lab.labId } }))
      expect(attempts.map(({ outcome }) => outcome)).toEqual(['sent'])
    } finally {
      server.close()
    }
  })

  it('goes to nobody whose access has ended', async () => {
    await oneMail()
    await inLab(({ prisma, at }) =>
      prisma.membership.updateMany({
        where: { labId: lab.labId, id: lab.people.technician.actor.membershipId },
        data: { validUntil: at },
      }),
    )
    await testApp.services.mail.round()
    expect(await sent()).toEqual([])
    expect((await state()).waiting).toBe(0)
  })
})

it('what a person wants is never anything unasked, holds as said last, and is on record', async () => {
  const read = async () => (await lab.as('engineer').get(lab.path('/mail/wishes')).expect(200)).body
  expect(await read()).toEqual(nothing)
  await wish('engineer', { windowMinutes: 60, notices: true }).expect(200)
  await wish('engineer', { windowMinutes: 30, notices: false }).expect(200)
  expect(await read()).toEqual({ ...nothing, windowMinutes: 30 })
  expect(
    await inLab(({ prisma }) => prisma.ledgerEntry.count({ where: { action: 'mail-wish:set-own', labId: lab.labId } })),
  ).toBe(2)
  await lab
    .as('engineer')
    .put(lab.path('/mail/wishes'))
    .send({ ...nothing, windowMinutes: 5 })
    .expect(400)
  await lab.as('technician').get(lab.path('/mail')).expect(403)
})

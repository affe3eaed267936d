import { createHash } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { newId } from '#platform/uuid'
import { startTestApp, type TestApp } from '../../../../../tests/support/app.ts'
import { makeLaboratory, type TestLaboratory } from '../../../../../tests/support/factories/laboratory.ts'

let testApp: TestApp
let lab: TestLaboratory

beforeAll(async () => {
  testApp = await startTestApp({ now: '2026-03-02T08:00:00Z' })
})
beforeEach(async () => {
  lab = await makeLaboratory(testApp)
})
afterAll(() => testApp.close())

const png = Buffer.concat([Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), Buffer.from('any picture')])
const picture = (more: object = {}) => ({
  id: newId(),
  name: 'cup 3 – “good”.png',
  mediaType: 'image/png',
  base64: png.toString('base64'),
  ...more,
})
const post = (body: object, url?: string) => lab.as('technician', url).post(lab.path('/attachments')).send(body)

describe('a file beside a result', () => {
  it('is kept once as it came, and is given back to be saved, never shown as a page', async () => {
    const body = picture()
    const { body: stored } = await post(body).expect(201)
    expect(stored).toMatchObject({
      id: body.id,
      name: 'cup 3 – “good”.png',
      mediaType: 'image/png',
      bytes: png.length,
      sha256: createHash('sha256').update(png).digest('hex'),
      by: { name: 'Person technician' },
    })
    await post(body).expect(200, stored)
    const { body: problem } = await post({ ...body, name: 'another.png' }).expect(409)
    // The bytes are not sent back with the refusal.
    expect(JSON.stringify(problem)).not.toContain(body.base64)
    const answer = await lab
      .as('auditor')
      .get(lab.path(`/attachments/${body.id}`))
      .buffer(true)
      .expect(200)
    expect(Buffer.compare(answer.body as Buffer, png)).toBe(0)
    expect(answer.headers['content-type']).toBe('image/png')
    expect(answer.headers['x-content-type-options']).toBe('nosniff')
    expect(answer.headers['content-disposition']).toBe(
      `attachment; filename="cup 3 _ _good_.png"; filename*=UTF-8''cup%203%20%E2%80%93%20%E2%80%9Cgood%E2%80%9D.png`,
    )
    const { items } = await testApp.services.ledger.list(lab.people.manager.actor, { subjectId: body.id, limit: 10 })
    expect(items).toMatchObject([{ action: 'attachment:create' }])
  })

  it('is refused when it is not what it calls itself, or nothing that is taken', async () => {
    const refusal = async (more: object) => (await post(picture(more)).expect(400)).body
    const asPdf = await refusal({ mediaType: 'application/pdf' })
    expect(asPdf.errors).toMatchObject([{ path: 'base64' }])
    expect(asPdf.detail).toContain('calls itself a PDF, but it is a PNG picture')
    await refusal({ mediaType: 'text/csv', base64: Buffer.from('<html>').toString('base64') })
    await refusal({ mediaType: 'text/html' })
    await refusal({ base64: 'not base64!' })
    await refusal({ base64: '' })
  })

  it('may be eight million bytes and not one more; other addresses take what they took', async () => {
    const csv = (bytes: number) => ({
      id: newId(),
      name: 'log.csv',
      mediaType: 'text/csv',
      base64: Buffer.alloc(bytes, '1').toString('base64'),
    })
    const { body } = await post(csv(8_000_000)).expect(201)
    expect(body.bytes).toBe(8_000_000)
    await post(csv(8_000_001)).expect((answer) => expect([400, 413]).toContain(answer.status))
    await post(csv(9_000_000)).expect(413)
    await lab
      .as('technician')
      .post(lab.path('/materials'))
      .send({ name: 'x'.repeat(2_000_000) })
      .expect(413)
  })

  it('sent twice at once through two servers is one file', async () => {
    const other = await testApp.startAnother()
    try {
      const body = picture()
      const answers = await Promise.all([post(body), post(body, other.url)])
      expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 201])
      expect(answers[0]!.body).toEqual(answers[1]!.body)
    } finally {
      await other.close()
    }
  })

  it('belongs to its laboratory, and clients see none', async () => {
    const { body } = await post(picture()).expect(201)
    const neighbour = await makeLaboratory(testApp)
    await neighbour
      .as('technician')
      .get(neighbour.path(`/attachments/${body.id}`))
      .expect(404)
    await lab
      .as('client')
      .get(lab.path(`/attachments/${body.id}`))
      .expect(403)
    await lab.as('auditor').post(lab.path('/attachments')).send(picture()).expect(403)
  })
})

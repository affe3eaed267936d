import { mkdir, rename, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { createTransport } from 'nodemailer'

/** Where mail goes: a server when one is named, else a folder. The address of the server may hold its password: never logged. */
export type MailConfig = { smtpUrl: string | undefined; from: string; folder: string }

export type OutgoingMail = { id: string; to: string; subject: string; text: string }
export type MailTransport = (mail: OutgoingMail) => Promise<void>

/** How long one mail may take (ms). Common practice, no source. */
const patience = 10_000

/** Hands one mail on, or fails with the reason. A mail keeps its Message-ID over all attempts. */
export function createMailTransport({ smtpUrl, from, folder }: MailConfig): MailTransport {
  const messageOf = ({ id, to, subject, text }: OutgoingMail) => ({
    ...{ from, to, subject, text },
    messageId: `<${id}@${from.split('@').at(-1)?.replace('>', '') ?? 'curebook'}>`,
    headers: { 'auto-submitted': 'auto-generated' },
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  if (smtpUrl !== undefined) {
    const server = createTransport({
      url: smtpUrl,
      connectionTimeout: patience,
      greetingTimeout: patience,
      socketTimeout: patience,
    })
    return async (mail) => void (await server.sendMail(messageOf(mail)))
  }
  const writer = createTransport({ streamTransport: true, buffer: true })
  return async (mail) => {
    const { message } = await writer.sendMail(messageOf(mail))
    await mkdir(folder, { recursive: true })
    const place = join(folder, `${mail.id}.eml`)
    // Whole or not at all: whoever reads the folder finds no half of a mail.
    await writeFile(`${place}.part`, message as Buffer)
    await rename(`${place}.part`, place)
  }
}

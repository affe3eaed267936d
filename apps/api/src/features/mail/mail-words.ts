/** Every word that Curebook mails. No value stands in a mail; to the laboratory's people no client and no project. */

export type ClosingWindow = {
  readonly label: string
  readonly code: string
  readonly stepTitle: string
  readonly closes: string
}

export function windowMail(windows: readonly ClosingWindow[], link: string | null) {
  const count = windows.length === 1 ? 'A window closes' : `${windows.length} windows close`
  return {
    subject: `${count} at ${windows[0]!.closes}`,
    body: text(
      `${count} soon:`,
      windows.map(({ label, code, stepTitle, closes }) => `${closes}  ${label} (${code}): ${stepTitle}`).join('\n'),
      link === null ? 'Open your Bench in Curebook.' : `Your Bench: ${link}`,
    ),
  }
}

/** Of what one had, somebody else gave it on, took it over, or took it back and nobody has it now. */
type NoticeKind = 'given' | 'taken' | 'taken-over' | 'taken-back'

export function noticeMail(
  kind: NoticeKind,
  { count, by, reason }: { count: number; by: string; reason: string | null },
  link: string | null,
) {
  const tests = count === 1 ? 'a test' : `${count} tests`
  const what = {
    given: `${by} gave you ${tests}`,
    taken: `${by} gave ${tests} of yours to somebody else`,
    'taken-over': `${by} took over ${tests} of yours`,
    'taken-back': `${by} took back ${tests} from you`,
  }[kind]
  return {
    subject: what,
    body: text(
      `${what}.`,
      reason === null ? '' : `Reason: ${reason}`,
      link === null ? 'Open your Bench in Curebook.' : `Your Bench: ${link}`,
    ),
  }
}

/** What happened and in which project of theirs; what it says is read after signing in. */
export function clientMail(kind: 'reports' | 'answers', project: string, link: string | null) {
  const what = kind === 'reports' ? 'A report was issued' : 'Your question was answered'
  return {
    subject: `${what}: ${project}`,
    body: text(`${what} in the project ${project}.`, link === null ? 'Open it in Curebook.' : `The project: ${link}`),
  }
}

const ending = 'You get this mail because you asked for it under Account in Curebook; it is turned off there too.'

function text(...parts: readonly string[]): string {
  return `${[...parts.filter((part) => part !== ''), ending].join('\n\n')}\n`
}

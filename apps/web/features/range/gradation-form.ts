import type { Gradation, Sieve } from '@curebook/contract/gradations'
import type { MadeBy } from '@curebook/contract/made-by'

type Around = {
  readonly id: string
  readonly madeBy: MadeBy
  /** Id under which a file was chosen; the one that stands is kept without. */
  readonly fileId: string | null
  readonly standing: Gradation | null
}

/** Sieves typed or pasted, one a line: the opening, then what passes. A line with one number has nothing passing yet. */
export function readSieves(text: string): Sieve[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [size = '', ...rest] = line.split(/[\s;:|]+/).filter((part) => part !== 'mm' && part !== '%')
      return { size, passing: rest.join(' ') }
    })
}

/** Sieves as they are typed into the field. */
export function writeSieves(sieves: readonly Sieve[]): string {
  return sieves.map(({ size, passing }) => `${size} ${passing}`).join('\n')
}

/** What the form of a gradation holds; fields that are not asked for a maker are empty. */
export function readGradationForm(form: FormData, { id, madeBy, fileId, standing }: Around) {
  const text = (name: string) => String(form.get(name) ?? '').trim()
  const own = (name: string) => (madeBy === 'entered' ? text(name) : '')
  const others = (name: string) => (madeBy === 'entered' ? '' : text(name))
  return {
    id,
    sieves: readSieves(text('sieves')),
    madeBy,
    method: text('method'),
    edition: text('edition'),
    source: others('source'),
    laboratoryName: others('laboratoryName'),
    observedBy: own('observedBy'),
    observedOn: text('observedOn'),
    remark: text('remark'),
    attachmentId: fileId ?? standing?.attachment?.id ?? null,
    ...(standing === null ? {} : { supersedes: { id: standing.id, reason: text('supersedes.reason') } }),
  }
}

/** All sieves are typed in one field: what is said of one of them stands beside that field, with its line. */
export function atSieves(errors: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(errors)
      .toReversed()
      .map(([path, message]) => {
        const row = /^sieves\.(\d+)/.exec(path)?.[1]
        return row === undefined ? [path, message] : ['sieves', `${Number(row) + 1}: ${message}`]
      }),
  )
}

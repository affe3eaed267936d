/** Dates typed one a line or parted by commas; what is no date stays and is refused by the contract beside the field. */
export function readDates(text: string): readonly string[] {
  return text
    .split(/[\s,;]+/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
}

/** Shifts or breaks typed one a line, `07:30 to 16:00` or `07:30-16:00`. */
export function readShifts(text: string): readonly { readonly from: string; readonly to: string }[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [from = '', to = ''] = line.split(/\s*(?:to|–|-)\s*/)
      return { from, to }
    })
}

export function writeShifts(shifts: readonly { readonly from: string; readonly to: string }[]): string {
  return shifts.map(({ from, to }) => `${from} to ${to}`).join('\n')
}

/** The form as the contract wants it. */
export function readSettings(form: FormData) {
  const text = (name: string) => String(form.get(name) ?? '')
  const accreditation = text('accreditation').trim()
  return {
    name: text('name'),
    address: text('address'),
    contact: text('contact'),
    zone: text('zone'),
    closedDays: {
      weekdays: form.getAll('closedDays.weekdays').map(Number),
      dates: readDates(text('closedDays.dates')),
    },
    shifts: readShifts(text('shifts')),
    breaks: readShifts(text('breaks')),
    units: text('units'),
    decimalSign: text('decimalSign'),
    paper: text('paper'),
    wallNames: text('wallNames'),
    accreditation: accreditation === '' ? null : accreditation,
  }
}

/**
 * A list's faults name one of its lines (`shifts.0.from`), and each list is one field: they become one there, the first of
 * them. What is said of any line is told in the field's own sentence, which shows how a line is written.
 */
export function onFields(
  errors: Readonly<Record<string, string>>,
  sentences: Readonly<Record<string, string>>,
): Readonly<Record<string, string>> {
  const told: Record<string, string> = {}
  for (const [path, message] of Object.entries(errors)) {
    const field = Object.keys(sentences).find((one) => path.startsWith(`${one}.`)) ?? path
    const ofAnyLine = field !== path && /^(A time of day|Invalid)/.test(message)
    told[field] ??= ofAnyLine ? (sentences[field] ?? message) : message
  }
  return told
}

import type { AnyActor } from './actor.ts'
import type { LaboratoryTransaction } from './laboratory.ts'

// Making one costs more than the rest of a row; there are few zones.
const formats = new Map<string, Intl.DateTimeFormat>()

function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone)
  if (known) return known
  const made = new Intl.DateTimeFormat('en-GB', { timeZone: zone, year: 'numeric', month: '2-digit', day: '2-digit' })
  formats.set(zone, made)
  return made
}

/** The calendar day of an instant in a zone, `2026-03-05`. */
export function dayIn(zone: string, at: Date): string {
  const parts = formatOf(zone).formatToParts(at)
  const part = (type: string) => parts.find((member) => member.type === type)!.value
  return `${part('year')}-${part('month')}-${part('day')}`
}

/** The time of day of an instant in a zone, `14:05`. */
export function clockIn(zone: string, at: Date): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit' }).format(at)
}

/** Today as the laboratory's wall calendar shows it. */
export async function laboratoryToday({ prisma, actor, at }: LaboratoryTransaction<AnyActor>): Promise<string> {
  const { zone } = await prisma.laboratory.findUniqueOrThrow({ where: { id: actor.labId }, select: { zone: true } })
  return dayIn(zone, at)
}

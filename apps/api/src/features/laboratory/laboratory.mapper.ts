import {
  BreakSchema,
  ClosedDaysSchema,
  type LaboratorySettings,
  type LaboratoryView,
  ShiftSchema,
} from '@curebook/contract/laboratory'
import type { Laboratory } from '@curebook/database/client'
import { z } from 'zod'
import type { Actor } from '#platform/actor'
import { canonicalJson } from '#platform/canonical-json'
import { actionsOf } from '#platform/permissions'

const ShiftsSchema = z.array(ShiftSchema)
const BreaksSchema = z.array(BreakSchema)

/** A laboratory's row as its member sees it. */
export function toLaboratoryView(row: Laboratory, actor: Actor): LaboratoryView {
  return {
    id: row.id,
    shortName: row.shortName,
    ...toSettings(row),
    version: row.version,
    me: {
      membershipId: actor.membershipId,
      name: actor.name,
      initials: actor.initials,
      roles: actor.roles,
      clientId: actor.clientId,
    },
    actions: actionsOf(actor.roles),
  }
}

/** The settings of a row; the structured ones are kept as canonical JSON text. */
export function toSettings(row: Laboratory): LaboratorySettings {
  return {
    name: row.name,
    address: row.address,
    contact: row.contact,
    zone: row.zone,
    closedDays: ClosedDaysSchema.parse(JSON.parse(row.closedDays)),
    shifts: ShiftsSchema.parse(JSON.parse(row.shifts)),
    breaks: BreaksSchema.parse(JSON.parse(row.breaks)),
    units: row.units as LaboratorySettings['units'],
    decimalSign: row.decimalSign as LaboratorySettings['decimalSign'],
    language: row.language as LaboratorySettings['language'],
    paper: row.paper as LaboratorySettings['paper'],
    accreditation: row.accreditation,
    wallNames: row.wallNames as LaboratorySettings['wallNames'],
  }
}

/** Settings as their columns; only what is given. */
export function toColumns({ closedDays, shifts, breaks, ...plain }: Partial<LaboratorySettings>) {
  return {
    ...plain,
    ...(closedDays && { closedDays: canonicalJson(closedDays) }),
    ...(shifts && { shifts: canonicalJson(shifts) }),
    ...(breaks && { breaks: canonicalJson(breaks) }),
  }
}

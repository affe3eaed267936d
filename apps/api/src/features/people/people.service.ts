import type { Person, UpdatePerson } from '@curebook/contract/people'
import type { Actor } from '#platform/actor'
import { editOf, repeatedEdit } from '#platform/edit'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { AppError, invalidField, notFound } from '#platform/problem'
import { toPerson } from './people.mapper.ts'
import { clientExists, countManagers, findPerson, listPeople, lockRoles, updatePerson } from './people.repository.ts'

export type PeopleService = ReturnType<typeof createPeopleService>

/** The people of a laboratory and their roles. */
export function createPeopleService({ laboratory }: { laboratory: Laboratory }) {
  return {
    list: (actor: Actor): Promise<Person[]> =>
      laboratory.inLaboratory(actor, async (tx) => (await listPeople(tx)).map(toPerson)),

    /** Changes name, roles or the end of a membership. A laboratory keeps at least one manager. */
    update: (actor: Actor, id: string, version: number, changes: UpdatePerson): Promise<Person> =>
      laboratory.inLaboratory(actor, async (tx) => {
        await lockRoles(tx)
        const before = await findPerson(tx, id)
        if (!before) throw notFound('person')
        const edit = editOf({ subjectKind: 'membership', subjectId: id, action: 'people:update' }, version, changes)
        if (before.version !== version) return repeatedEdit(tx, edit, toPerson(before))
        const clientId = changes.clientId === undefined ? before.clientId : changes.clientId
        await checkClient(tx, changes.roles ?? before.roles, clientId)
        const { validUntil, ...plain } = changes
        const data = {
          ...plain,
          ...(validUntil !== undefined && { validUntil: validUntil === null ? null : new Date(validUntil) }),
        }
        await updatePerson(tx, id, data)
        if ((await countManagers(tx)) === 0) {
          throw new AppError('refused-by-rule', `${before.name} is the last manager. Make somebody else manager first.`)
        }
        const after = toPerson((await findPerson(tx, id))!)
        tx.record({
          ...edit,
          topics: ['people'],
          content: { before: toPerson(before), after },
        })
        return after
      }),
  }
}

/** The role client names its client, and stands alone; every other role names none. */
export async function checkClient(tx: LaboratoryTransaction, roles: string[], clientId: string | null): Promise<void> {
  if (roles.includes('client') !== (clientId !== null))
    throw invalidField('clientId', 'Name the client for the role client, and for no other role.')
  if (clientId !== null && !(await clientExists(tx, clientId)))
    throw invalidField('clientId', 'There is no such client in this laboratory.')
}

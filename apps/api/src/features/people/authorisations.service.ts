import type { Authorisation, Authorisations, CorrectAuthorisation, Grant } from '@curebook/contract/authorisations'
import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { Actor } from '#platform/actor'
import { createOnce } from '#platform/creation'
import type { Laboratory, LaboratoryTransaction } from '#platform/laboratory'
import { laboratoryToday } from '#platform/laboratory-day'
import { AppError, invalidField, notFound } from '#platform/problem'
import { activitiesOf, type Span } from './authorisation-rules.ts'
import { toAuthorisation } from './authorisations.mapper.ts'
import { findAuthorisation, findStanding, insertAuthorisation, lockPerson } from './authorisations.repository.ts'
import { findPerson } from './people.repository.ts'

export type AuthorisationsService = ReturnType<typeof createAuthorisationsService>

/** What each person is authorised for, from when until when, on what evidence. */
export function createAuthorisationsService({
  laboratory,
  methods,
}: {
  laboratory: Laboratory
  methods: readonly MethodDeclaration[]
}) {
  const activities = activitiesOf(methods)
  const labels = new Map(activities.map(({ activity, label }) => [activity, label]))

  async function find(tx: LaboratoryTransaction, id: string): Promise<Authorisation | null> {
    const row = await findAuthorisation(tx, id)
    return row && toAuthorisation(row, labels, await laboratoryToday(tx))
  }

  return {
    list: (actor: Actor): Promise<Authorisations> =>
      laboratory.inLaboratory(actor, async (tx) => {
        const [rows, today] = [await findStanding(tx), await laboratoryToday(tx)]
        const bound = new Set(rows.map(({ activity }) => activity))
        return {
          items: rows.map((row) => toAuthorisation(row, labels, today)),
          activities: activities.map((one) => ({ ...one, binds: bound.has(one.activity) })),
        }
      }),

    grant: (actor: Actor, input: Grant) =>
      createOnce(laboratory, actor, {
        subjectKind: 'authorisation',
        id: input.id,
        input,
        find: (tx) => find(tx, input.id),
        create: async (tx) => {
          checkSpan(input)
          if (!labels.has(input.activity))
            throw invalidField('activity', 'This laboratory knows no such activity. Choose one of the list.')
          await lockPerson(tx, input.membershipId)
          const person = await findPerson(tx, input.membershipId)
          if (!person || person.roles.includes('client'))
            throw invalidField('membershipId', 'Nobody of this laboratory has this id. Choose a person of the list.')
          await insertAuthorisation(tx, { ...input, supersedesId: null, reason: null })
          tx.record({
            action: 'authorisation:create',
            subjectKind: 'authorisation',
            subjectId: input.id,
            topics: ['people', 'authorisations'],
            content: { ...input },
          })
          return (await find(tx, input.id))!
        },
      }),

    /** Another span or other evidence takes the place of one that stands; the earlier one stays on record. */
    correct: (actor: Actor, id: string, input: CorrectAuthorisation) =>
      createOnce(laboratory, actor, {
        subjectKind: 'authorisation',
        id: input.id,
        input: { authorisation: id, ...input },
        find: (tx) => find(tx, input.id),
        create: async (tx) => {
          checkSpan(input)
          const named = await findAuthorisation(tx, id)
          if (!named) throw notFound('authorisation')
          await lockPerson(tx, named.membershipId)
          // Looked at again under the lock: of two corrections at once the second is told of the first.
          const before = (await findAuthorisation(tx, id))!
          if (before.supersededBy) {
            const stored = toAuthorisation(before.supersededBy, labels, await laboratoryToday(tx))
            throw new AppError(
              'conflict',
              `${stored.by.name} has changed this authorisation meanwhile: ${stored.reason}. Look at the one that stands.`,
              { extra: { stored, sent: input } },
            )
          }
          const { membershipId, activity } = before
          await insertAuthorisation(tx, { ...input, membershipId, activity, supersedesId: id })
          tx.record({
            action: 'authorisation:correct',
            subjectKind: 'authorisation',
            subjectId: input.id,
            topics: ['people', 'authorisations'],
            content: { ...input, supersedes: id, person: membershipId, activity },
          })
          return (await find(tx, input.id))!
        },
      }),
  }
}

function checkSpan({ fromDay, untilDay }: Span): void {
  if (untilDay !== null && untilDay < fromDay)
    throw invalidField('untilDay', 'It cannot end before it begins: give the first day or a later one.')
}

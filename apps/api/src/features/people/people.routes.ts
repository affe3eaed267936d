import { IdSchema } from '@curebook/contract/common'
import {
  AcceptedSchema,
  AcceptInvitationSchema,
  InvitationOfferSchema,
  InvitationSchema,
  InvitationTokenSchema,
  InvitedSchema,
  InviteSchema,
  PersonSchema,
  UpdatePersonSchema,
} from '@curebook/contract/people'
import { ProblemSchema } from '@curebook/contract/problem'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import { z } from 'zod'
import { etagOf, ifMatch } from '#platform/etag'
import { labParams } from '#platform/lab-params'
import { originOf } from '#platform/origin'
import type { InvitationsService } from './invitations.service.ts'
import type { PeopleService } from './people.service.ts'

const tags = ['People']
const problems = { '4xx': ProblemSchema }

/** HTTP edge of people and invitations, under /api/labs/:lab. */
export const peopleRoutes: FastifyPluginAsyncZod<{ people: PeopleService; invitations: InvitationsService }> = async (
  app,
  { people, invitations },
) => {
  app.get('/people', {
    config: { action: 'people:read' },
    schema: {
      operationId: 'listPeople',
      tags,
      params: labParams(),
      response: { 200: z.array(PersonSchema), ...problems },
    },
    handler: (request) => people.list(request.actor),
  })

  app.patch('/people/:person', {
    config: { action: 'people:update' },
    schema: {
      operationId: 'updatePerson',
      tags,
      params: labParams({ person: IdSchema }),
      body: UpdatePersonSchema,
      response: { 200: PersonSchema, ...problems },
    },
    handler: async (request, reply) => {
      const person = await people.update(request.actor, request.params.person, ifMatch(request), request.body)
      return reply.header('etag', etagOf(person.version)).send(person)
    },
  })

  app.get('/invitations', {
    config: { action: 'people:invite' },
    schema: {
      operationId: 'listInvitations',
      tags,
      params: labParams(),
      response: { 200: z.array(InvitationSchema), ...problems },
    },
    handler: (request) => invitations.list(request.actor),
  })

  app.post('/invitations', {
    config: { action: 'people:invite' },
    schema: {
      operationId: 'invite',
      tags,
      params: labParams(),
      body: InviteSchema,
      response: { 200: InvitedSchema, 201: InvitedSchema, ...problems },
    },
    handler: async (request, reply) => {
      const { created, value } = await invitations.invite(request.actor, request.body)
      return reply.code(created ? 201 : 200).send(value)
    },
  })

  app.delete('/invitations/:invitation', {
    config: { action: 'people:invite' },
    schema: {
      operationId: 'revokeInvitation',
      tags,
      params: labParams({ invitation: IdSchema }),
      response: { 200: InvitationSchema, ...problems },
    },
    handler: (request) => invitations.revoke(request.actor, request.params.invitation),
  })
}

/** HTTP edge of accepting an invitation, under /api. The token travels in the body: addresses are logged, bodies are not. */
export const invitationRoutes: FastifyPluginAsyncZod<{ invitations: InvitationsService }> = async (
  app,
  { invitations },
) => {
  app.post('/invitations/look-up', {
    config: { action: 'invitation:read' },
    schema: {
      operationId: 'lookUpInvitation',
      tags,
      body: InvitationTokenSchema,
      response: { 200: InvitationOfferSchema, ...problems },
    },
    handler: (request) => invitations.lookUp(request.body.token, originOf(request)),
  })

  app.post('/invitations/accept', {
    config: { action: 'invitation:accept' },
    schema: {
      operationId: 'acceptInvitation',
      tags,
      body: AcceptInvitationSchema,
      response: { 201: AcceptedSchema, ...problems },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await invitations.accept(request.body, request.sessionToken, originOf(request))),
  })
}

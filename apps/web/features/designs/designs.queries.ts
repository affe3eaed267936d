'use client'

import type {
  BatchSheet,
  CreateDesign,
  Design,
  DesignSummary,
  EnteredResult,
  EnterResult,
  PlanSeries,
  SpecimenRow,
  UpdateDesign,
} from '@curebook/contract/designs'
import type { DemandCheck } from '@curebook/contract/demand'
import type { Material } from '@curebook/contract/materials'
import type { Method } from '@curebook/contract/methods'
import type { Project } from '@curebook/contract/projects'
import { queryOptions, useMutation, useQueryClient } from '@tanstack/react-query'
import { getJson, labPath, patchJson, postJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

import { usualSeries } from './usual-series.ts'

type Page<Row> = { readonly items: Row[]; readonly next: string | null }
/** A design as it is read: its newest revision, or an earlier one by its number. */
export type RevisionOf = { readonly id: string; readonly revision?: number }

export const designQueries = {
  list: (lab: string, cursor: string) =>
    queryOptions({
      queryKey: [lab, 'designs', 'list', cursor],
      queryFn: ({ signal }) =>
        getJson<Page<DesignSummary>>(labPath(lab, 'designs'), { signal, query: { cursor, limit: 200 } }),
      meta: { topics: ['designs', 'design'] },
    }),
  one: (lab: string, { id, revision }: RevisionOf) =>
    queryOptions({
      queryKey: [lab, 'designs', 'one', id, revision ?? 'newest'],
      queryFn: ({ signal }) => getJson<Design>(labPath(lab, 'designs', id), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`] },
    }),
  specimens: (lab: string, { id, revision }: RevisionOf) =>
    queryOptions({
      queryKey: [lab, 'designs', 'specimens', id, revision ?? 'newest'],
      queryFn: ({ signal }) =>
        getJson<Page<SpecimenRow>>(labPath(lab, 'designs', id, 'specimens'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, 'schedule'] },
    }),
  batchSheets: (lab: string, { id, revision }: RevisionOf) =>
    queryOptions({
      queryKey: [lab, 'designs', 'batch-sheets', id, revision ?? 'newest'],
      queryFn: ({ signal }) =>
        getJson<Page<BatchSheet>>(labPath(lab, 'designs', id, 'batch-sheets'), { signal, query: { revision } }),
      meta: { topics: [`design:${id}`, 'methods'] },
    }),
  /** What the planned series takes against what arrived. */
  demand: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'designs', 'demand', id],
      queryFn: ({ signal }) => getJson<DemandCheck>(labPath(lab, 'designs', id, 'demand'), { signal }),
      meta: { topics: [`design:${id}`, 'materials'] },
    }),
  /** The same for the usual series, where none is planned yet. */
  usualDemand: (lab: string, id: string) =>
    queryOptions({
      queryKey: [lab, 'designs', 'usual-demand', id],
      queryFn: () => postJson<DemandCheck>(labPath(lab, 'designs', id, 'demand'), usualSeries),
      meta: { topics: [`design:${id}`, 'materials'] },
    }),
  /** What a design is made of; each list has a screen of its own, where what is missing is entered. */
  projects: (lab: string) => choices<Project>(lab, 'projects', { limit: 200 }),
  materials: (lab: string) => choices<Material>(lab, 'materials'),
  methods: (lab: string) => choices<Method>(lab, 'methods'),
}

function choices<Row>(lab: string, list: string, query: Record<string, number> = {}) {
  return queryOptions({
    queryKey: [lab, 'designs', 'choices', list],
    queryFn: ({ signal }) => getJson<Page<Row>>(labPath(lab, list), { signal, query }),
    meta: { topics: [list] },
  })
}

/** What shows a design changes: the list, the design with its range and review, and the project. */
export function topicsOfDesign({ id, projectId }: Pick<Design, 'id' | 'projectId'>): readonly string[] {
  return ['designs', `design:${id}`, `project:${projectId}`, 'projects']
}

export function useCreateDesign(lab: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: CreateDesign) => postJson<Design>(labPath(lab, 'designs'), body),
    onSuccess: (design) => refreshTopics(client, topicsOfDesign(design)),
  })
}

export function useUpdateDesign(lab: string, design: Design) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: UpdateDesign) =>
      patchJson<Design>(labPath(lab, 'designs', design.id), body, { ifMatch: design.version }),
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}

export function useEnterResult(lab: string, design: Design) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: EnterResult) =>
      postJson<EnteredResult>(labPath(lab, 'designs', design.id, 'entered-results'), body),
    onSuccess: () => refreshTopics(client, topicsOfDesign(design)),
  })
}

/** @param key made once for each opened form: sent again, it is the same plan */
export function usePlanSeries(lab: string, design: Design, key: string) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: PlanSeries) =>
      postJson<Page<SpecimenRow>>(labPath(lab, 'designs', design.id, 'plan'), body, { idempotencyKey: key }),
    onSuccess: () => refreshTopics(client, [...topicsOfDesign(design), 'schedule', 'bench']),
  })
}

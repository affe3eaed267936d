'use client'

import type { LaboratoryView, UpdateLaboratory } from '@curebook/contract/laboratory'
import { useMutation, useQueryClient } from '@tanstack/react-query'
import { labPath, patchJson } from '#lib/api-client.ts'
import { refreshTopics } from '#lib/live-topics.ts'

export function useUpdateLaboratory(lab: string, version: number) {
  const client = useQueryClient()
  return useMutation({
    mutationFn: (body: UpdateLaboratory) => patchJson<LaboratoryView>(labPath(lab), body, { ifMatch: version }),
    // Refused, somebody else was quicker: what stands now is asked for too.
    onSettled: () => refreshTopics(client, ['laboratory']),
  })
}

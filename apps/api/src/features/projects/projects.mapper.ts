import type { DesignState, JobKind, Project } from '@curebook/contract/projects'
import type { ProjectRow } from './projects.repository.ts'

export function toProject(row: ProjectRow): Project {
  return {
    id: row.id,
    code: row.code,
    clientId: row.clientId,
    clientName: row.client.name,
    name: row.name,
    kind: row.kind as JobKind,
    reportTo: row.reportTo,
    copiesTo: row.copiesTo,
    version: row.version,
    createdAt: row.createdAt.toISOString(),
    designs: row.designs.flatMap(({ id, name, designRevisions: [newest] }) =>
      newest ? [{ id, name, revision: newest.number, state: newest.state as DesignState }] : [],
    ),
  }
}

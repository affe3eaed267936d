'use client'

import { ProjectScreen } from '#features/projects/project-screen.tsx'
import { ProjectsScreen } from '#features/projects/projects-screen.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { OwnProjectScreen, OwnProjectsScreen } from './own-projects-screen.tsx'

/** One address for everybody: staff see the work, a client sees how their own stands. */
export function ProjectsByRole() {
  const lab = useLaboratory()
  return lab.may('project:read') ? <ProjectsScreen /> : <OwnProjectsScreen />
}

export function ProjectByRole({ id }: { id: string }) {
  const lab = useLaboratory()
  return lab.may('project:read') ? <ProjectScreen id={id} /> : <OwnProjectScreen id={id} />
}

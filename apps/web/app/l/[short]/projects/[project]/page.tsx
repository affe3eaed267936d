import { ProjectByRole } from '#features/client-view/projects-by-role.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function ProjectPage({ params }: { params: Promise<{ project: string }> }) {
  const { project } = await params
  return (
    <WordsOf features={['projects', 'client-view', 'reports']}>
      <ProjectByRole id={project} />
    </WordsOf>
  )
}

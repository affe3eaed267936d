import { ProjectByRole } from '#features/client-view/projects-by-role.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function ProjectPage({ params }: { params: Promise<{ project: string }> }) {
  const { project } = await params
  return (
    <WordsOf
      features={[
        'projects',
        'project-specifications',
        'specifications',
        'client-view',
        'reports',
        'questions',
        'expected-days',
      ]}
    >
      <ProjectByRole id={project} />
    </WordsOf>
  )
}

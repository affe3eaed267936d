import { ProjectsByRole } from '#features/client-view/projects-by-role.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default function ProjectsPage() {
  return (
    <WordsOf features={['projects', 'client-view', 'questions', 'expected-days']}>
      <ProjectsByRole />
    </WordsOf>
  )
}

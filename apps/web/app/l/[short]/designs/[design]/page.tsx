import { DesignScreen } from '#features/designs/design-screen.tsx'
import { WordsOf } from '#lib/words-of.tsx'

export default async function DesignPage({ params }: { params: Promise<{ design: string }> }) {
  const { design } = await params
  return (
    <WordsOf
      features={[
        'designs',
        'project-specifications',
        'range',
        'attachments',
        'trials',
        'review',
        'reports',
        'compare',
        'observations',
        'estimates',
        'panel-tests',
        'replicates',
      ]}
    >
      <DesignScreen id={design} />
    </WordsOf>
  )
}

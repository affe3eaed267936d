'use client'

import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { TextField } from '#components/text-field.tsx'
import { Door } from '#features/shell/door.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { usePairWall } from './wall.queries.ts'

/** The one time that a wall screen is typed on. */
export function WallPairing() {
  const words = useWords()
  const pair = usePairWall()
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/wall').then(({ PairWallSchema }) => PairWallSchema),
    read: (form) => ({ code: String(form.get('code')) }),
    save: pair,
  })
  return (
    <Door>
      <div className="stack">
        <PageHeading screen={words('wall.title')} under={words('wall.pairAbout')} />
        <form className="stack" onSubmit={onSubmit} noValidate aria-busy={pair.isPending}>
          <FormErrors errors={errors} />
          <TextField
            name="code"
            size="bench"
            label={words('wall.code')}
            hint={words('wall.codeHint')}
            autoComplete="off"
            autoCapitalize="characters"
            spellCheck={false}
            error={errors.code}
          />
          <div>
            <Button type="submit" tone="main" size="bench" busy={pair.isPending}>
              {words('wall.pair')}
            </Button>
          </div>
        </form>
      </div>
    </Door>
  )
}

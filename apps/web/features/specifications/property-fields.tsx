import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Select } from '#components/select.tsx'
import { TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { knownProperties } from './known-properties.ts'
import { specificationQueries } from './specifications.queries.ts'
import { limitPath, type LimitStart } from './written-form.ts'

const another = 'another'

/** Which property a new limit is of: one that is known here, which fills in what goes with it, or another by a word. */
export function PropertyFields({
  start,
  index,
  errors,
  onPick,
}: {
  start: LimitStart
  index: number
  errors: Readonly<Record<string, string>>
  onPick: (start: LimitStart) => void
}) {
  const words = useWords()
  const lab = useLaboratory()
  const known = knownProperties(useQuery(specificationQueries.builtIn(lab.id)).data?.items ?? [])
  const [chosen, setChosen] = useState('')
  const path = limitPath(index, 'property')
  const pick = (key: string) => {
    setChosen(key)
    const found = known.find((one) => one.key === key)
    if (found !== undefined) onPick(found.start)
  }
  return (
    <>
      <div data-field={chosen === another ? undefined : path}>
        <Select
          name={limitPath(index, 'known')}
          label={words('specifications.limitProperty')}
          prompt={words('specifications.chooseProperty')}
          value={chosen}
          onChange={(event) => pick(event.target.value)}
          options={[
            ...known.map((one) => ({ value: one.key, label: one.start.label })),
            { value: another, label: words('specifications.anotherProperty') },
          ]}
          error={chosen === another ? undefined : errors[path]}
        />
      </div>
      {chosen === another ? (
        <>
          <TextField
            name={path}
            label={words('specifications.limitWord')}
            hint={words('specifications.limitWordHint')}
            autoComplete="off"
            error={errors[path]}
          />
          <input type="hidden" name={limitPath(index, 'soak')} value="" />
        </>
      ) : (
        <>
          <input type="hidden" name={path} value={chosen === '' ? '' : start.property} />
          <input type="hidden" name={limitPath(index, 'soak')} value={start.soak ?? ''} />
        </>
      )}
    </>
  )
}

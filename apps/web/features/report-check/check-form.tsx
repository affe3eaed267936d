'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { TextField } from '#components/text-field.tsx'
import { useWords } from '#lib/words.ts'
import { readTypedCode } from './typed-code.ts'

/** The code that is printed on a report, typed by hand. */
export function CheckForm({ initial = '' }: { initial?: string }) {
  const words = useWords()
  const router = useRouter()
  const [errors, setErrors] = useState<Readonly<Record<string, string>>>({})
  return (
    <form
      className="stack"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        const code = readTypedCode(String(new FormData(event.currentTarget).get('code')))
        if (code === '') setErrors({ code: words('reportCheck.needCode') })
        else router.push(`/check/${code}`)
      }}
    >
      <FormErrors errors={errors} />
      <TextField
        name="code"
        label={words('reportCheck.code')}
        hint={words('reportCheck.codeHint')}
        defaultValue={initial}
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        error={errors.code}
      />
      <div>
        <Button type="submit" tone="main">
          {words('reportCheck.check')}
        </Button>
      </div>
    </form>
  )
}

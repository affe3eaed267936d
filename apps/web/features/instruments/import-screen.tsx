'use client'

import { importColumns } from '@curebook/contract/instrument-import-columns'
import { useState } from 'react'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FieldFrame } from '#components/field-frame.tsx'
import fieldStyles from '#components/field.module.css'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { fieldErrors } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { textOf } from './file-text.ts'
import { ImportPreviewPart } from './import-preview.tsx'
import { ImportsPart } from './imports-part.tsx'
import { usePreviewImport } from './imports.queries.ts'

type ReadFile = { readonly name: string; readonly content: string }

/** Instruments from a file: what it would bring in, then all of it or nothing; and the files brought in before. */
export function ImportScreen() {
  const words = useWords()
  const lab = useLaboratory()
  const preview = usePreviewImport(lab.id)
  const [file, setFile] = useState<ReadFile>()
  async function read(chosen: File | null) {
    preview.reset()
    if (chosen === null) return setFile(undefined)
    const content = textOf(await chosen.arrayBuffer())
    setFile({ name: chosen.name, content })
    preview.mutate(content)
  }
  const may = lab.may('instrument:import')
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/instruments`, label: words('instruments.title') }]} />
        <PageHeading screen={words('instrumentImport.title')} under={words('instrumentImport.under')} />
      </div>
      {may ? (
        <div className="stack" data-form>
          <FormErrors errors={fieldErrors(preview.error)} />
          <FieldFrame
            name="file"
            label={words('instrumentImport.file')}
            hint={words('instrumentImport.fileHint', { columns: importColumns.join(', ') })}
          >
            {(ties) => (
              <input
                {...ties}
                name="file"
                type="file"
                accept=".csv,text/csv"
                className={fieldStyles.input}
                onChange={(event) => void read(event.currentTarget.files?.[0] ?? null)}
              />
            )}
          </FieldFrame>
          {preview.isPending && <p role="status">{words('instrumentImport.reading')}</p>}
          {file !== undefined && preview.data !== undefined && (
            <ImportPreviewPart
              // Another file, or the same one put right, is another import.
              key={`${file.name} ${file.content}`}
              file={file}
              preview={preview.data}
              onReadAgain={() => preview.mutate(file.content)}
            />
          )}
        </div>
      ) : (
        <EmptyState title={words('instrumentImport.notAllowed')}>{words('instrumentImport.notAllowedMore')}</EmptyState>
      )}
      <ImportsPart />
    </div>
  )
}

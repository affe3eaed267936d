import { expect, test } from 'vitest'
import { readPdf } from '../../../../../../tests/support/pdf-text.ts'
import { renderReport } from './render-report.ts'
import { sampleContent, sampleReport } from './sample-content.ts'

const squeezed = (text: string) => text.replace(/\s+/g, '')
const { specification } = sampleContent()
const shown = async (more: { version?: string; differs?: string }) =>
  squeezed(
    readPdf(await renderReport(sampleReport({ content: { specification: { ...specification, ...more } } }))).text,
  )

test('a report names the version of its specification, and says where that is not the project’s', async () => {
  const differs = `Held against “${specification.name}”, version 2; the project stands on “Owner’s values”, version 1. Why: trial section`
  const text = await shown({ version: '2', differs })
  expect(text).toContain(squeezed(`${specification.name}, version 2; ${specification.source}`))
  expect(text).toContain(squeezed(differs))
})

test('content signed before versions were named reads as it did', async () => {
  const text = await shown({})
  expect(text).toContain(squeezed(`${specification.name}; ${specification.source}`))
  expect(text).not.toContain(squeezed('Not the project’s'))
})

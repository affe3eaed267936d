import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

const web = fileURLToPath(new URL('../..', import.meta.url))
const filesOf = (folder: string, ending: string) =>
  readdirSync(`${web}/${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith(ending))
    .map((file) => ({ file: `${folder}/${file}`, text: readFileSync(`${web}/${folder}/${file}`, 'utf8') }))
const folders = ['components', 'features/bench', 'features/bench-sheet', 'features/put-in', 'features/loads']

test('nothing at the bench waits for a double tap, a long press, two fingers or a pointer that rests on it', () => {
  const gestures =
    /\bon(DoubleClick|ContextMenu|Touch\w+|Pointer\w+|Gesture\w+|Wheel|Mouse(Enter|Leave|Over|Out|Down|Up|Move))\b/
  const found = folders.flatMap((folder) => filesOf(folder, '.tsx').filter(({ text }) => gestures.test(text)))
  expect(found.map(({ file }) => file)).toEqual([])
})

test('a pointer over something changes its colour only: it shows nothing that was not there', () => {
  const colours = /^(color|background|background-color|border-color|text-decoration[\w-]*|filter)$/
  const rules = folders.flatMap((folder) =>
    filesOf(folder, '.css').flatMap(({ file, text }) =>
      [...text.matchAll(/([^{}]*:hover[^{}]*)\{([^{}]*)\}/g)].flatMap(([, , body = '']) =>
        [...body.matchAll(/([\w-]+)\s*:/g)].map(([, property = '']) => ({ file, property })),
      ),
    ),
  )
  expect(rules.length).toBeGreaterThan(0)
  expect(rules.filter(({ property }) => !colours.test(property))).toEqual([])
})

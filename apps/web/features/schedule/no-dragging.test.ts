import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

test('nothing is moved by dragging: every move is a button with words (ux M7)', () => {
  const web = fileURLToPath(new URL('../..', import.meta.url))
  const dragging = ['components', 'features'].flatMap((folder) =>
    readdirSync(`${web}/${folder}`, { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.tsx'))
      .filter((file) => /\bdraggable\b|onDrag|useDrag/.test(readFileSync(`${web}/${folder}/${file}`, 'utf8'))),
  )
  expect(dragging).toEqual([])
  expect(readFileSync(`${web}/features/schedule/schedule-columns.tsx`, 'utf8')).toContain("words('schedule.give')")
})

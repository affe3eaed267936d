import { describe, expect, test } from 'vitest'
import { coveredByKeyboard, partToShow } from './keep-in-view.ts'

const span = (top: number, height: number) => ({ top, bottom: top + height })

describe('what is brought into view over a keyboard', () => {
  const low = span(0, 380)
  test.each([
    ['a form that is seen whole stays', low, span(20, 300), span(40, 60), 'nothing'],
    ['a form below comes up whole', low, span(500, 300), span(520, 60), 'form'],
    ['a form that is cut off below comes up', low, span(200, 300), span(220, 60), 'form'],
    [
      'a form taller than what is seen comes up where its field is near its top',
      low,
      span(300, 700),
      span(320, 90),
      'form',
    ],
    ['a field far down in a tall form comes up alone', low, span(-200, 900), span(500, 60), 'field'],
    ['and stays where it is seen', low, span(-500, 900), span(100, 60), 'nothing'],
    ['a field without a form comes up', low, undefined, span(400, 60), 'field'],
    ['without a keyboard nothing moves', span(0, 700), span(900, 300), span(920, 60), 'nothing'],
  ] as const)('%s', (_, visible, form, field, part) => {
    expect(partToShow(visible, form, field)).toBe(part)
  })
  test('where the browser moved what is seen, it is what counts', () => {
    expect(partToShow(span(300, 380), span(20, 300), span(40, 60))).toBe('form')
  })
})

describe('what a keyboard lies over', () => {
  const visual = { height: 420, offsetTop: 0, scale: 1 }
  test.each([
    ['the rest of the window', 768, visual, 348],
    ['less where the page was moved up', 768, { ...visual, offsetTop: 100 }, 248],
    ['nothing where the page became smaller itself', 420, visual, 0],
    ['nothing where only the address bar came', 480, visual, 0],
    ['nothing where it was zoomed in', 768, { ...visual, scale: 1.8 }, 0],
    ['nothing where the browser cannot say', 768, null, 0],
  ])('%s', (_, innerHeight, seen, covered) => {
    expect(coveredByKeyboard(innerHeight, seen)).toBe(covered)
  })
})

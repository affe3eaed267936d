import { expect, test, vi } from 'vitest'
import { chooseDetector, squareReader } from './code-detector.ts'

const picture = {} as HTMLVideoElement
const own = vi.fn(async () => async () => ['ours'])

function browserThatKnows(...supported: readonly string[]) {
  const asked: unknown[] = []
  class BarcodeDetector {
    static getSupportedFormats = async () => supported
    constructor(options: unknown) {
      asked.push(options)
    }
    detect = async () => [{ rawValue: '7KD2' }]
  }
  return { BarcodeDetector, asked }
}

test('the browser’s own detector reads squares and lines, of what it knows', async () => {
  const browser = browserThatKnows('ean_13', 'qr_code', 'code_128')
  expect(await (await chooseDetector(browser, own))(picture)).toEqual(['7KD2'])
  expect(browser.asked).toEqual([{ formats: ['qr_code', 'code_128'] }])
  const squares = browserThatKnows('qr_code')
  await chooseDetector(squares, own)
  expect(squares.asked).toEqual([{ formats: ['qr_code'] }])
  expect(own).not.toHaveBeenCalled()
})

test('where there is none, or it knows no squares, ours reads them', async () => {
  for (const browser of [{}, browserThatKnows('code_128')])
    expect(await (await chooseDetector(browser, own))(picture)).toEqual(['ours'])
})

/** The square of a label that says 7KD2, as our labels are drawn. */
const label = [
  '#######...#.#.#######',
  '#.....#..##...#.....#',
  '#.###.#.##.#..#.###.#',
  '#.###.#.#.#.#.#.###.#',
  '#.###.#.##..#.#.###.#',
  '#.....#.##.#..#.....#',
  '#######.#.#.#.#######',
  '........###..........',
  '#.#####..###..#####..',
  '####.#...######..####',
  '..#...###...#.##..###',
  '.#####.##.#####......',
  '.##.###...#.#..#.###.',
  '........#...#..#.###.',
  '#######...##.#..#....',
  '#.....#.###....##.#.#',
  '#.###.#.#..#.#..#.#..',
  '#.###.#.#######..#...',
  '#.###.#.#.#.#.##.....',
  '#.....#..#.####..#..#',
  '#######.##..#..#..#..',
]

/** The label as a camera sees it: each cell some pixels wide, paper around it. */
function pictureOf(rows: readonly string[], cell: number) {
  const paper = 4
  const side = (rows.length + 2 * paper) * cell
  const data = new Uint8ClampedArray(side * side * 4).fill(235)
  for (let y = 0; y < side; y += 1)
    for (let x = 0; x < side; x += 1)
      if (rows[Math.floor(y / cell) - paper]?.[Math.floor(x / cell) - paper] === '#')
        data.fill(40, (y * side + x) * 4, (y * side + x) * 4 + 3)
  return { data, width: side, height: side }
}

test('ours reads the square of a label, small and large, and nothing where there is none', async () => {
  const read = await squareReader()
  for (const cell of [3, 8]) expect(read(pictureOf(label, cell))).toEqual(['7KD2'])
  expect(
    read(
      pictureOf(
        label.map((row) => '.'.repeat(row.length)),
        3,
      ),
    ),
  ).toEqual([])
})

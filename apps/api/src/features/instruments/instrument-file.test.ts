import { expect, test } from 'vitest'
import { judgeLines } from './instrument-file-rows.ts'
import { readInstrumentFile } from './instrument-file.ts'

const today = '2026-03-02'
const judge = (content: string, taken: readonly string[] = []) => {
  const { lines, faults } = readInstrumentFile(content)
  const judged = judgeLines(lines, { taken: new Set(taken), today })
  return { rows: judged.rows, faults: [...faults, ...judged.faults] }
}
const told = (content: string, taken?: readonly string[]) =>
  judge(content, taken).faults.map(({ line, column, message }) => `${line} ${column ?? ''}: ${message}`)

test('a file of a spreadsheet with byte order mark, semicolons, decimal commas and the other ends of line is read', () => {
  const { rows, faults } = judge(
    '\uFEFFCode;Kind;Name;Capacity (g);Smallest step (g);Calibrated on;Due;Certificate\r\n' +
      'BAL-1;Balance;6 kg, discs;6000;0,1;2026-01-05;2027-01-05;C-17\r\n' +
      '\r\n' +
      'BAL-2;balance;Strips;1200;0,01 g;;;\r\n',
  )
  expect(faults).toEqual([])
  expect(rows).toEqual([
    {
      line: 2,
      instrument: {
        ...{ code: 'BAL-1', kind: 'balance', name: '6 kg, discs', serial: '', place: '' },
        ...{ capacity: '6000', capacityUnit: 'g', resolution: '0.1' },
      },
      calibration: { doneOn: '2026-01-05', validUntil: '2027-01-05', certificate: 'C-17', passed: true },
      factor: null,
    },
    expect.objectContaining({ line: 4, calibration: null }),
  ])
  expect(rows[1]!.instrument.resolution).toBe('0.01')
})

test('quoted fields keep their commas, marks and line breaks, and the lines after them keep their numbers', () => {
  const content = 'code,kind,name\nOV-1,oven,"Oven, 60 °C,\nfor ""discs"""\nOV-2,stove,Oven\n'
  const { rows, faults } = judge(content)
  expect(rows.map(({ line, instrument }) => [line, instrument.name])).toEqual([[2, 'Oven, 60 °C,\nfor "discs"']])
  expect(faults.map(({ line, column }) => [line, column])).toEqual([[4, 'kind']])
})

test('a machine comes with its factor; heads are read in any order, case and by other names', () => {
  const { rows, faults } = judge(
    'Use\tKIND\tcode\tfactor\tfactor unit\tmeasured area\tedition\teffective from\n' +
      'Wet track machine\twet track machine\tWTA-1\t32,9\tg/m2\t303.8\tFrom memory\t2026-01-01\n',
  )
  expect(faults).toEqual([])
  expect(rows[0]!.factor).toEqual({
    ...{ key: 'area', typed: '32,9', unit: 'g/m²', measuredAreaCm2: '303.8' },
    ...{ edition: 'From memory', effectiveFrom: '2026-01-01' },
  })
})

test('each fault is a sentence with its line and column', () => {
  expect(
    told(
      'code,kind,name,capacity,calibrated on,due,certificate,passed\n' +
        ',balance,Bench,,,,,\n' +
        'B-1,balance,Bench,heavy,,,,\n' +
        'B-1,oven,Oven,6000,,,,\n' +
        'B-2,oven,Oven,,05/03/2026,2027-01-01,C-1,maybe\n' +
        'B-3,oven,Oven,,2026-03-03,2026-01-01,,\n' +
        'BAL-9,oven,Oven,,2026-02-30,,C-2,no\n',
      ['BAL-9'],
    ),
  ).toEqual([
    '2 code: Give the code on its label.',
    '3 capacity: The capacity must be a number in grams, like 812.4.',
    '4 code: The code B-1 stands already on line 3.',
    '4 capacity: Only a balance has one: leave it empty.',
    '5 calibrated on: “05/03/2026” is no day as it is written here: year, month, day, like 2026-03-05.',
    '5 passed: Whether it passed is yes or no; left empty it is yes.',
    '6 certificate: A calibration has its day, its end and its certificate: this one is missing.',
    '6 calibrated on: A calibration is entered when it is done: give today or an earlier day.',
    '6 due: A calibration cannot end before it was done: give a later day.',
    '7 code: The code BAL-9 is taken: give the one on this instrument’s label.',
    '7 due: A calibration has its day, its end and its certificate: this one is missing.',
    '7 calibrated on: “2026-02-30” is no day as it is written here: year, month, day, like 2026-03-05.',
  ])
})

test('a factor without its edition, of no machine or in another unit is told', () => {
  const heads = 'code,kind,name,factor,factor unit,edition,factor from\n'
  expect(told(`${heads}OV-1,oven,Oven,32.9,g/m²,Mine,2026-01-01\n`)).toEqual([
    '2 factor: OV-1 is no machine with a factor: only a wet track machine and a loaded wheel hold one.',
  ])
  expect(told(`${heads}WTA-1,wet-track-machine,Machine,-1,kg,,2026-12-01\n`)).toEqual([
    '2 edition: A factor has its figure, its unit, its edition and its first day: this one is missing.',
    '2 factor unit: The unit is g/m² or g/ft².',
    '2 factor from: A factor is entered when it holds: give 2026-03-02 or an earlier day.',
  ])
  expect(told(`${heads}WTA-1,wet-track-machine,Machine,0,g/m²,Mine,2026-01-01\n`)).toEqual([
    '2 factor: The factor must be more than 0 g/m².',
  ])
})

test('what is no such table is told once: columns that are missing, unknown or twice, an open quotation mark, nothing at all', () => {
  expect(told('code,kind,colour,Code\nB-1,balance,red,B-2\n')).toEqual([
    expect.stringMatching(/^1 colour: “colour” is no column here\. Columns are: code, kind, name, /),
    '1 Code: The column “code” stands here twice.',
    '1 name: The column “name” is missing.',
  ])
  expect(told('code,kind,name\nB-1,balance,"Bench\nB-2,balance,Bench\n')).toEqual([
    expect.stringMatching(/^\d+ : A quotation mark is not closed/),
  ])
  expect(told('\n\n')).toEqual(['1 : The file is empty: its first line names the columns.'])
  expect(told('code,kind,name\n')).toEqual(['1 : There is no line below the heads of the columns.'])
  expect(told('code,kind,name\nB-1,balance,6 kg, discs\n')).toEqual([
    '2 : This line has 4 fields for 3 columns: put a field with a sign between columns in quotation marks.',
  ])
  expect(told(`code,kind,name\n${'B,balance,Bench\n'.repeat(501)}`)).toEqual([
    '1 : The file has 501 lines: bring in at most 500 at once.',
  ])
})

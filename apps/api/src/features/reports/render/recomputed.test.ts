import { expect, test } from 'vitest'
import { readPdf } from '../../../../../../tests/support/pdf-text.ts'
import { renderReport } from './render-report.ts'
import { sampleContent, sampleReport } from './sample-content.ts'

const squeezed = (text: string) => text.replace(/\s+/g, '')
type Change = NonNullable<Parameters<typeof sampleReport>[0]>['content']
const textOf = async (content: Change) => squeezed(readPdf(await renderReport(sampleReport({ content }))).text)
const { specimens, panel, range, specification } = sampleContent()

/** What somebody who doubts a number needs, years later, without the product. */
test('a specimen names its machine, a machine its measured area, and the binder content its working', async () => {
  const line = { operands: [], unit: 'g', source: 'as weighed' }
  const text = await textOf({
    equipment: [{ code: specimens[0]!.code, instruments: ['OV-1', 'WTA-1'] }],
    measuredAreas: [{ code: 'BAL-1', areaCm2: '303.8' }],
    batchExample: {
      code: specimens[0]!.code,
      calculation: {
        schema: 1,
        lines: [
          { ...line, symbol: 'dry', name: 'Dry aggregate', op: 'input', value: '799.8' },
          { ...line, symbol: 'p', name: 'A hundred times the binder', op: 'input', value: '5008' },
          // 80.0 × 62.6 ÷ 799.8
          {
            ...{ symbol: 'P', name: 'Residual binder', op: 'quotient', operands: ['p', 'dry'] },
            ...{ value: '6.261565391347836959239809952488122', unit: '% of dry aggregate', source: 'arithmetic' },
          },
        ],
      },
    },
  })
  expect(text).toContain('AdaLindqvistBAL-1,OV-1,WTA-1')
  expect(text).toContain('measuredarea303.8cm²')
  expect(text).toContain(`Workedexample:residualbinderasweighed,specimen${specimens[0]!.code}`)
  expect(text).toContain('p÷dry6.261565391347836959239809952488122%ofdryaggregate')
})

test('a corrected reading is named with its unit among the corrections', async () => {
  const [first, ...others] = specimens
  const readings = first!.readings.map((reading, index) =>
    index === 0 ? { ...reading, corrected: '737.7 (digits transposed)' } : reading,
  )
  const correction = { label: '10-1, soak', from: '737.7', to: '759.5', reason: 'digits transposed', by: 'A', at: '' }
  const text = await textOf({
    specimens: [{ ...first!, readings }, ...others],
    corrections: [{ code: first!.code, ...correction }],
  })
  expect(/10-1,soak:(.{0,30})737\.7g759\.5gdigitstransposed/.exec(text)?.[1]).toContain('W1')
})

test('a gradation stands with the band that it was held against, and as a row of the panel', async () => {
  const row = { tolerance: null, label: 'No. 4, 4.75 mm' }
  const check = {
    rows: [
      { ...row, size: '4.75', from: '90', to: '100', passing: '88', verdict: 'outside' as const },
      { ...row, size: '2.36', label: 'No. 8', from: '65', to: '90', passing: null, verdict: 'not tested' as const },
    ],
    ...{ verdict: 'outside' as const, sentence: 'The gradation lies outside the band at No. 4.' },
    ...{ source: 'NCHRP Synthesis 411 (2010), table 18', certainty: 'published' },
  }
  const gradation = {
    ...{
      sieves: [
        { size: '9.5', passing: '100' },
        { size: '4.75', passing: '88' },
      ],
      madeBy: 'entered' as const,
    },
    ...{ source: 'AASHTO T 27', observedOn: '2026-03-02', by: 'Ada Lindqvist' },
  }
  const held = await textOf({ gradation, gradationCheck: check })
  expect(held).toContain('9.5100noband–4.758890to100✕FAIL2.36–65to90○NOTTESTED')
  expect(held).toContain('Gradationoftheaggregatetheband,sievebysieveNCHRPSynthesis411(2010),table18,published')
  expect(held).not.toContain('holdsnobandforit')
  expect(await textOf({ gradation })).toContain('holdsnobandforit')
})

test('the range says its midpoint as emulsion, and says nothing twice', async () => {
  const minimum = { ...range.minimum, sentence: 'Minimum 6.905 %, set by abrasion loss, 6-day soak.' }
  const text = await textOf({ range: { ...range, minimum, midpointEmulsion: '12.128199' } })
  expect(text).toContain('Midpoint7.59212.13')
  expect(text).toContain('11.03Minimum6.905%,setbyabrasionloss,6-daysoak.')
})

test('a sentence that says no more than its row is left out; one with more digits stays', async () => {
  const how = `${specification.comparison}, ${specification.decisionRule}`
  const said = (digits: string) => `${digits} g/m² meets the limit, at most 538 g/m²: ${how}.`
  const withSentence = (sentence: string) => panel.map((row, index) => (index === 0 ? { ...row, sentence } : row))
  expect(await textOf({ panel: withSentence(said('296.1')) })).not.toContain('296.1g/m²meetsthelimit')
  expect(await textOf({ panel: withSentence(said('537.998')) })).toContain('537.998g/m²meetsthelimit')
  expect(await textOf({ panel: withSentence(`${said('296.1')} By another: 300.`) })).toContain('Byanother:300.')
})

test('what was replaced is void like any other: its act is called so once', async () => {
  const [first, ...others] = specimens
  const event = { step: 'void', label: 'Void', by: 'A', eventAt: '2026-03-05T13:37:00Z', receivedAt: '', note: 'torn' }
  const gone = { ...first!, state: 'replaced', remark: 'void: felt tore', results: [], events: [event] }
  const text = await textOf({ specimens: [gone, ...others] })
  expect(text).toContain(`Void:torn(${first!.code})`)
  expect(text).not.toContain('void,Void')
})

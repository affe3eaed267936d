import type { SignedContent } from '@curebook/contract/signed-content'
import { styles } from '../paper.ts'
import type { Sheet } from '../sheet.ts'
import { drawTable } from '../table.ts'

/** Trial-mix cups as typed, the chosen one marked; an annex of designs that have any. */
export function drawTrialMixes(sheet: Sheet, { trialMixes }: SignedContent): void {
  if (trialMixes === undefined) return
  const { words } = sheet
  const number = (head: string) => ({ head, align: 'right' as const, fit: true as const, least: 30 })
  const percent = (name: string) => number(`${name}, %`)
  drawTable(sheet, {
    title: words.trialMixes,
    columns: [
      number(words.cup),
      percent(words.emulsion),
      percent(words.water),
      percent(words.filler),
      percent(words.additive),
      number(words.cupTemperature),
      number(words.cupMixTime),
      number(words.cupCoated),
      number(words.cupClearWater),
      { head: words.cupSeen, share: 2.6 },
    ],
    rows: trialMixes.cups.map((cup) => [
      cup.number,
      cup.emulsion,
      cup.water,
      cup.filler,
      cup.additive,
      cup.temperature,
      cup.mixTime,
      cup.coated,
      cup.clearWater,
      [cup.consistency ?? '', cup.broke ?? '', cup.remark, cup.by, cup.chosen ? words.cupChosen : '']
        .filter((part) => part !== '')
        .join('; '),
    ]),
  })
  sheet.paragraph(words.trialMixesNote, styles.quiet)
}

import type { SignedTrialMixes } from '@curebook/contract/signed-content'
import { mixBreaks, mixConsistencies } from '@curebook/trade/methods/trial-mix-words'
import type { LaboratoryTransaction } from '#platform/laboratory'
import { type CupRow, findCups, findLastBase } from './trials.repository.ts'

/** The trial-mix cups of a design as they are signed and printed, with the one whose shares the series has; null without any. */
export async function signedTrialMixesIn(
  tx: LaboratoryTransaction,
  designId: string,
  revision: number,
): Promise<SignedTrialMixes | null> {
  const [cups, base] = [await findCups(tx, designId, revision), await findLastBase(tx, designId, revision)]
  if (cups.length === 0) return null
  return {
    cups: cups.map((cup) => ({
      number: String(cup.number),
      emulsion: cup.emulsionPercentText,
      water: cup.waterPercentText,
      additive: cup.additivePercentText,
      filler: cup.fillerPercentText,
      temperature: cup.temperatureText ?? '',
      mixTime: cup.mixTimeText ?? '',
      coated: cup.coatedText ?? '',
      clearWater: cup.clearWaterText ?? '',
      ...looksOf(cup),
      remark: cup.remark,
      by: cup.by.name,
      // A cup completed or corrected after it was chosen is the same cup of the same revision.
      chosen: base?.trialCup.number === cup.number && base.trialCup.designRevisionId === cup.designRevisionId,
    })),
  }
}

/** How it looked and broke, in words; left out where nobody noted it, so that what was signed earlier keeps its bytes. */
function looksOf({ consistency, broke }: Pick<CupRow, 'consistency' | 'broke'>) {
  const looked = mixConsistencies.find(({ key }) => key === consistency)?.label
  const broken = mixBreaks.find(({ key }) => key === broke)?.label
  return {
    ...(looked === undefined ? {} : { consistency: looked }),
    ...(broken === undefined ? {} : { broke: broken }),
  }
}

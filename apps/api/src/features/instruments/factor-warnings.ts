import { checkFactor, type FactorUnit, nearestClass, openingArea } from '@curebook/trade/methods/machine-factor'
import { areaFactorClasses } from '@curebook/trade/methods/wet-track-abrasion'
import type { EditionParameters } from '@curebook/trade/procedure/declaration'
import { parameterOf } from '@curebook/trade/procedure/evaluation'
import { displayDigits } from '@curebook/trade/quantity/display'

export type CheckedFactor = { key: 'area' | 'frame'; value: string; unit: FactorUnit; measuredAreaCm2: string | null }

/**
 * Sentences where a factor is further than the edition's tolerance (2 %) from what its measured area gives, or from the
 * edition's table: the nearest class for an abraded area, the opening for a sand frame; and where the machine's factor in
 * its `other` unit is of another class. Asked about, never refused.
 */
export function factorWarnings(
  factor: CheckedFactor,
  parameters: EditionParameters,
  other?: Pick<CheckedFactor, 'value' | 'unit'>,
): string[] {
  const { key, value, unit, measuredAreaCm2 } = factor
  const tolerance = parameterOf({ parameters }, 'factor-difference').value
  const warnings: string[] = []
  if (measuredAreaCm2 !== null) {
    const check = checkFactor(value, unit, measuredAreaCm2, tolerance)
    if (check.warns)
      warnings.push(
        `${value} ${unit} is ${percent(check.differencePercent)} off what the measured area of ${measuredAreaCm2} cm² gives, ${digits(check.expected)} ${unit}. Measure again, or check the figure.`,
      )
  }
  if (key === 'area') {
    const nearest = nearestClass(value, unit, areaFactorClasses, parameters)
    if (nearest?.warns)
      warnings.push(
        `${value} ${unit} is ${percent(nearest.differencePercent)} off the nearest class of the table, ${nearest.class.name}: ${digits(nearest.expected)} ${unit}. A machine of another kind needs its area measured.`,
      )
    const beside = other && nearestClass(other.value, other.unit, areaFactorClasses, parameters)
    if (nearest && beside && nearest.class.key !== beside.class.key)
      warnings.push(
        `${value} ${unit} is nearest to class ${nearest.class.name} of the table, ${other.value} ${other.unit} to class ${beside.class.name}: a machine is of one class. Check both figures.`,
      )
  } else {
    const width = parameterOf({ parameters }, 'frame-width').value
    const length = parameterOf({ parameters }, 'frame-length').value
    const check = checkFactor(value, unit, openingArea(width, length), tolerance)
    if (check.warns)
      warnings.push(
        `${value} ${unit} is ${percent(check.differencePercent)} off what an opening of ${width} × ${length} mm gives, ${digits(check.expected)} ${unit}.`,
      )
  }
  return warnings
}

function percent(difference: string): string {
  return `${displayDigits(difference.replace('-', ''), { decimals: 1 })} %`
}

function digits(expected: string): string {
  return displayDigits(expected, { decimals: 2 })
}

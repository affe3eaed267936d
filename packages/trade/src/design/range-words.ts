import { displayDigits, type DecimalSign } from '../quantity/display.ts'
import type { Curve, CurveMean } from './curve.ts'
import type { EndFinding, RangeBand, Side } from './range-end.ts'
import { emulsionOfResidual } from './residual-binder.ts'
import { usualSoakRatio, type UnusualSoakRatio } from './soak-ratio.ts'

/** The sentences of the acceptable range. One place for all of them; numbers are cut for reading only. */
export type RangeWords = ReturnType<typeof rangeWords>

/** Contents are shown to three decimals, as emulsion to two; halves to even. */
export function rangeWords(options: { readonly residuePercent: string | null; readonly sign?: DecimalSign }) {
  const show = (digits: string, decimals: number) =>
    displayDigits(digits, { decimals, ...(options.sign ? { sign: options.sign } : {}) })
  const target = (digits: string) => displayDigits(digits, options.sign ? { sign: options.sign } : {})
  const content = (x: string) => `${show(x, 3)} % residual binder${asEmulsion(x)}`
  const asEmulsion = (x: string) =>
    options.residuePercent === null ? '' : ` (${show(emulsionOfResidual(x, options.residuePercent), 2)} % emulsion)`
  const tested = (mean: CurveMean) =>
    `${target(mean.emulsionPercent)} % emulsion (${show(mean.x, 3)} % residual binder)`
  const edgeName = (side: Side) => (side === 'minimum' ? 'lower' : 'upper')

  return {
    setBy(side: Side, end: EndFinding, band: RangeBand): string {
      if (end.kind === 'crossing') return end.curve.label
      if (end.kind === 'band') return `${edgeName(side)} edge of the band, ${band.source}`
      if (end.kind === 'open') return 'open'
      return 'not determined'
    },
    end(side: Side, end: EndFinding, waiting: readonly Curve[]): string {
      const name = side === 'minimum' ? 'Minimum' : 'Maximum'
      const bound = side === 'minimum' ? 'at least' : 'at most'
      const verb = side === 'minimum' ? 'from' : 'up to'
      const untested =
        waiting.length === 0 ? '' : ` ${upper(list(waiting))} ${waiting.length === 1 ? 'is' : 'are'} not tested.`
      if (end.kind === 'crossing')
        return `${name}${untested ? ` ${bound}` : ''} ${content(end.value)}, set by ${lower(end.curve.label)}${atAcceptance(end.curve)}.${untested}`
      if (end.kind === 'band' && end.crossed)
        return `${name}${untested ? ` ${bound}` : ''} ${content(end.value)}, the ${edgeName(side)} edge of the band: ${lower(end.crossed.curve.label)} meets ${itsLimit(end.crossed.curve)} ${verb} ${show(end.crossed.crossing.x, 3)} %, outside the band.${untested}`
      if (end.kind === 'band')
        return `${name} ${content(end.value)}, the ${edgeName(side)} edge of the band: tested contents reach it and meet the limits.`
      if (end.kind === 'open') {
        const within = end.within
          ? ` ${end.within.curve.label} meets ${itsLimit(end.within.curve)} ${verb} ${show(end.within.crossing.x, 3)} %, where ${lower(end.curve.label)} is not tested.`
          : ''
        return `${name} open: the last content tested is ${tested(end.lastTested)}.${within}${untested}`
      }
      if (end.failing.length === 0) return `${name} not determined.${untested}`
      return `${name} not determined: no tested content meets ${limitsOf(end.failing)}.${untested}`
    },
    extend(side: Side, curve: Curve): string {
      const way = side === 'minimum' ? 'richer' : 'leaner'
      return `No tested content meets ${limitsOf([curve])}, and the band goes on: extend the series with ${way} contents.`
    },
    bandEnds(curve: Curve): string {
      return `No tested content meets ${limitsOf([curve])}, and the tested contents reach the end of the band.`
    },
    turns(curve: Curve): string {
      const where = curve.turns
        .map(([a, b]) => `between ${target(a.emulsionPercent)} and ${target(b.emulsionPercent)} % emulsion`)
        .join(' and ')
      const falls = (curve.bears === 'minimum') === (curve.limit?.sense === 'max')
      const used =
        curve.bears === 'minimum'
          ? `the highest content at which it ${falls ? 'falls' : 'rises'} through ${itsLimit(curve)} counts`
          : `the lowest content at which it ${falls ? 'falls' : 'rises'} through ${itsLimit(curve)} counts`
      return `${curve.label} does not ${falls ? 'fall' : 'rise'} steadily: it turns ${where}. Where it meets ${itsLimit(curve)} more than once, ${used}.`
    },
    crossesBack(curve: Curve, x: string): string {
      return `${curve.label} goes back through ${itsLimit(curve)} at ${content(x)}: the range does not go beyond.`
    },
    /** One sentence for all contents of a curve with so many results, each content by name. */
    replicates(curve: Curve, means: readonly CurveMean[], n: number): string {
      const results = n === 1 ? 'a single result' : 'two results'
      const contents = means.map(({ emulsionPercent }) => target(emulsionPercent))
      if (contents.length === 1) return `${curve.label}, ${contents[0]} % emulsion: ${results} (n = ${n}).`
      const named = `${contents.slice(0, -1).join(', ')} and ${contents.at(-1)}`
      return `${curve.label} at ${named} % emulsion: ${results} at each content (n = ${n}).`
    },
    missing(curve: Curve): string {
      return `${curve.label} is asked for and not tested.`
    },
    otherUnit(curve: Curve): string {
      return `${curve.label} is held in ${curve.unit} and its limit in ${curve.limit?.unit ?? ''}: a limit is compared in its own unit, so it sets nothing.`
    },
    noLimit(curve: Curve): string {
      return `No limit is held for ${lower(curve.label)}: it sets no end.`
    },
    unequal(curves: readonly Curve[]): string {
      const each = curves.map(
        ({ label, means }) =>
          `${lower(label)} at ${means.map(({ emulsionPercent }) => target(emulsionPercent)).join(', ')}`,
      )
      return `Not every test was made at every content, in % emulsion: ${each.join('; ')}.`
    },
    /** One sentence for the contents of one side. */
    soakRatio(curve: Curve, side: UnusualSoakRatio['side'], found: readonly UnusualSoakRatio[]): string {
      const contents = found.map(({ emulsionPercent }) => target(emulsionPercent)).join(', ')
      const times = found.map(({ ratio }) => show(ratio, 2)).join(', ')
      const what =
        side === 'more'
          ? `more than ${target(usualSoakRatio.to)} times: the mix is sensitive to water`
          : 'less than after one hour: look at the weighings and soaks of both'
      return `${curve.label}, at ${contents} % emulsion: ${times} times the loss after one hour, ${what} (${usualSoakRatio.source}).`
    },
    outsideBand(curve: Curve, band: RangeBand): string {
      return `Every content at which ${lower(curve.label)} was tested lies outside the band (${bandWords(band)} % residual binder): nothing is known inside it.`
    },
    oneContent(mean: CurveMean, meets: readonly { readonly curve: Curve; readonly meets: boolean }[]): string {
      const verdicts = meets.map(
        ({ curve, meets: met }) => `${lower(curve.label)} ${met ? 'meets' : 'does not meet'} ${itsLimit(curve)}`,
      )
      return `One content is tested, ${target(mean.emulsionPercent)} % emulsion: there is no curve and no range. At this content ${verdicts.join(', ')}.`
    },
    nothingTested: 'No content is tested yet.',
    nothingHeld: 'Nothing tested can be held against a limit: no range follows from it.',
    noRange(minimum: string, maximum: string): string {
      return `No range: the minimum, ${show(minimum, 3)} %, lies above the maximum, ${show(maximum, 3)} % residual binder. No content meets all limits.`
    },
    noneAlike(curves: readonly Curve[]): string {
      return `No range: inside the band no content meets ${limitsOf(curves)}.`
    },
    apart: 'No tested content is known to meet the limits at both ends.',
    notDetermined: 'The range cannot be determined from the contents tested.',
    closed(minimum: string, maximum: string, usable: readonly Curve[]): string {
      return `Contents from ${show(minimum, 3)} to ${content2(minimum, maximum)} meet the limits tested${withGuardBands(usable)}.`
    },
    open(minimum: EndFinding, maximum: EndFinding, usable: readonly Curve[]): string {
      const from = minimum.kind === 'open' ? `${show(minimum.lastTested.x, 3)} % (last content tested)` : ''
      const to = maximum.kind === 'open' ? `${show(maximum.lastTested.x, 3)} % (last content tested)` : ''
      const value = (end: EndFinding) => ('value' in end ? `${show(end.value, 3)} %` : '')
      return `Contents tested from ${from || value(minimum)} to ${to || value(maximum)} residual binder meet the limits tested${withGuardBands(usable)}; ${minimum.kind === 'open' && maximum.kind === 'open' ? 'neither limit is reached' : `the ${minimum.kind === 'open' ? 'minimum' : 'maximum'} is open`}.`
    },
    /** How means and lines were compared with the limits; of a curve that is decided by an uncertainty, by what. */
    comparison(curves: readonly Curve[]): string {
      const decided = curves.flatMap(({ label, limit }) => {
        if (!limit?.decision) return []
        const { rule, held, words } = limit.decision
        const how =
          rule === 'guard band'
            ? `compared with the acceptance limit, ${target(limit.value)} ${limit.unit}, in place of the limit, ${target(held)} ${limit.unit}`
            : 'compared with the limit itself, and a conditional pass or fail within U of it'
        return [` ${label}: ${how} (${words}).`]
      })
      return `Means are compared with the limit unrounded, in the limit’s own unit; between means the line is straight, and nothing is said beyond the contents tested.${decided.join('')}`
    },
    content,
  }

  function atAcceptance({ limit }: Curve) {
    return limit && isGuarded({ limit }) ? ` at its acceptance limit, ${target(limit.value)} ${limit.unit}` : ''
  }
  function content2(minimum: string, maximum: string) {
    if (options.residuePercent === null) return `${show(maximum, 3)} % residual binder`
    const emulsion = [minimum, maximum].map((x) => show(emulsionOfResidual(x, options.residuePercent ?? ''), 2))
    return `${show(maximum, 3)} % residual binder (${emulsion.join(' to ')} % emulsion)`
  }
  function bandWords({ from, to }: RangeBand) {
    if (from !== null && to !== null) return `${target(from)} to ${target(to)}`
    return from !== null ? `from ${target(from)}` : `up to ${target(to ?? '')}`
  }
}

function list(curves: readonly Pick<Curve, 'label'>[]): string {
  return curves.map(({ label }) => lower(label)).join(' and ')
}

/** Whether a guard band puts an acceptance limit in the place of the limit. */
function isGuarded({ limit }: Pick<Curve, 'limit'>): boolean {
  return limit?.decision?.rule === 'guard band'
}

function itsLimit(curve: Curve): string {
  return isGuarded(curve) ? 'its acceptance limit' : 'its limit'
}

/** "the limit of abrasion and adhesion", acceptance limits named as such. */
function limitsOf(curves: readonly Curve[]): string {
  const [plain, guarded] = [false, true].map((is) => curves.filter((curve) => isGuarded(curve) === is))
  return [
    ...(plain!.length > 0 ? [`the limit of ${list(plain!)}`] : []),
    ...(guarded!.length > 0 ? [`the acceptance limit of ${list(guarded!)}`] : []),
  ].join(' and ')
}

function withGuardBands(curves: readonly Curve[]): string {
  return curves.some(isGuarded) ? ' with their guard bands' : ''
}

function lower(label: string): string {
  return label.charAt(0).toLowerCase() + label.slice(1)
}

/** As it begins a sentence. */
function upper(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

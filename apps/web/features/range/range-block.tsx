'use client'

import type { RangeEnd, RangeView } from '@curebook/contract/range'
import { Icon } from '#components/icon.tsx'
import { QuantityText } from '#components/quantity-text.tsx'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { ShowCalculation } from './show-calculation.tsx'
import styles from './range.module.css'

/** The acceptable range: minimum, midpoint as an aid, maximum, what set each end, and whatever must be said beside it. */
export function RangeBlock({ view, brief = false }: { view: RangeView; brief?: boolean }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const { band, testedSpan } = view
  const span = (from: string | null, to: string | null, decimals?: number) =>
    words('range.span', {
      from: from === null ? words('range.noEnd') : digits(from, decimals),
      to: to === null ? words('range.noEnd') : digits(to, decimals),
    })
  return (
    <section className="stack" aria-labelledby="acceptable-range">
      <h2 id="acceptable-range">{words('range.acceptable')}</h2>
      <p className={styles.sentence}>{view.sentence}</p>
      {!saysAll(view) && (
        <div className={styles.ends}>
          <End side="minimum" end={view.minimum} brief={brief} />
          <Midpoint view={view} />
          <End side="maximum" end={view.maximum} brief={brief} />
        </div>
      )}
      {!saysAll(view) && <p className="quiet small">{view.comparison}</p>}
      {!brief && (
        <dl className="facts">
          <div>
            <dt>{words('range.tested')}</dt>
            <dd>
              {testedSpan === null
                ? words('range.nothingTested')
                : `${span(testedSpan.from, testedSpan.to, 3)} ${view.basis}`}
            </dd>
          </div>
          <div>
            <dt>{words('range.band')}</dt>
            <dd>
              {span(band.from, band.to)} {view.basis} <span className="quiet small">{band.source}</span>
            </dd>
          </div>
          <div>
            <dt>{words('range.residueUsed')}</dt>
            <dd>
              {view.residue === null ? (
                words('range.residueMissing')
              ) : (
                <>
                  <QuantityText digits={view.residue.value} unit={view.residue.unit} />{' '}
                  <span className="quiet small">{view.residue.source}</span>
                </>
              )}
            </dd>
          </div>
        </dl>
      )}
      {!brief && <Flags view={view} />}
    </section>
  )
}

/** With one content, or none, there are no ends to show: the sentence is the whole answer. */
function saysAll({ minimum, maximum, sentence }: RangeView): boolean {
  return [minimum, maximum].every((end) => end.kind === 'none' && end.sentence === sentence)
}

function End({ side, end, brief }: { side: 'minimum' | 'maximum'; end: RangeEnd; brief: boolean }) {
  const words = useWords()
  const name = words(`range.${side}`)
  return (
    <section className="panel stack stack-tight" aria-labelledby={`range-${side}`}>
      <h3 id={`range-${side}`}>{name}</h3>
      {end.residualPercent === null ? (
        <p className={styles.figure}>{words(`range.kind.${end.kind}`)}</p>
      ) : (
        <Figure residual={end.residualPercent} emulsion={end.emulsionPercent} />
      )}
      {brief && end.residualPercent !== null ? (
        <p>
          <span className="quiet">{words('range.setBy')}</span> {end.setBy}
        </p>
      ) : (
        <p>{end.sentence}</p>
      )}
      {end.calculation !== null && (
        <div className="row no-print">
          <ShowCalculation
            title={words('range.calculationOfEnd', { end: name })}
            calculation={end.calculation}
            decimals={3}
          />
        </div>
      )}
    </section>
  )
}

function Midpoint({ view: { midpoint } }: { view: RangeView }) {
  const words = useWords()
  return (
    <section className="panel stack stack-tight" aria-labelledby="range-midpoint">
      <h3 id="range-midpoint">{words('range.midpoint')}</h3>
      {midpoint === null ? (
        <p className={`${styles.figure} ${styles.aid}`}>{words('range.noMidpoint')}</p>
      ) : (
        <Figure residual={midpoint.residualPercent} emulsion={midpoint.emulsionPercent} aid />
      )}
      <p className="quiet">{words(midpoint === null ? 'range.noMidpointWhy' : 'range.midpointAid')}</p>
      {midpoint !== null && (
        <div className="row no-print">
          <ShowCalculation
            title={words('range.calculationOfMidpoint')}
            calculation={midpoint.calculation}
            decimals={3}
          />
        </div>
      )}
    </section>
  )
}

function Figure({ residual, emulsion, aid = false }: { residual: string; emulsion: string | null; aid?: boolean }) {
  const words = useWords()
  return (
    <div>
      <p className={`${styles.figure} ${aid ? styles.aid : ''}`}>
        <QuantityText digits={residual} unit="%" decimals={3} />{' '}
        <span className={styles.figureWord}>{words('range.residualWord')}</span>
      </p>
      {emulsion !== null && (
        <p>
          <QuantityText digits={emulsion} unit="%" decimals={2} /> {words('range.emulsionWord')}
        </p>
      )}
    </div>
  )
}

/** What must be said beside a range, in full sentences: no range, open, one content, extend the series, a curve that turns. */
export function Flags({ view }: { view: RangeView }) {
  const words = useWords()
  const said = view.flags.filter(({ sentence }) => sentence !== view.sentence)
  if (said.length === 0) return null
  return (
    <section className="stack stack-tight" aria-labelledby="range-flags">
      <h3 id="range-flags">{words('range.beside')}</h3>
      <ul className={`plain-list ${styles.flags}`}>
        {said.map(({ key, sentence }) => (
          <li key={`${key} ${sentence}`}>
            <Icon name={key === 'few-replicates' || key === 'tested-unequally' ? 'question' : 'warning'} />
            <span>{sentence}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

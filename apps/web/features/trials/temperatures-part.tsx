'use client'

import type { TrialCup } from '@curebook/contract/trials'
import designStyles from '#features/designs/designs.module.css'
import { recipesByTemperature } from '@curebook/trade/design/mix-time-temperatures'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { timedCups } from './timed-cups.ts'
import styles from './trials.module.css'

/** Recipes stirred at more than one temperature, from cold to warm: whether the mix still holds on a hot day. */
export function TemperaturesPart({ cups }: { cups: readonly TrialCup[] }) {
  const words = useWords()
  const { digits } = useLaboratoryFormat()
  const recipes = recipesByTemperature(timedCups(cups))
  if (recipes.length === 0) return null
  return (
    <section className="stack" aria-labelledby="temperatures">
      <h3 id="temperatures">{words('trials.temperatures')}</h3>
      <p className="quiet small">{words('trials.temperaturesAbout')}</p>
      <div className={designStyles.scroll} tabIndex={0} role="group" aria-label={words('trials.temperatures')}>
        <table className={`${designStyles.grid} ${styles.table}`}>
          <caption className="sr-only">{words('trials.temperatures')}</caption>
          <thead>
            <tr>
              <th scope="col">{words('trials.recipeOf')}</th>
              <th scope="col">{words('trials.times')}</th>
              <th scope="col">
                {words('trials.perDegree')}
                <span className={designStyles.unit}>s/°C</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {recipes.map(({ cups: [first, ...others], secondsForEachDegree }) => {
              const all = [first!, ...others]
              const [emulsion = '', water = '', additive = '', filler = ''] = first!.recipe.map((share) =>
                digits(share),
              )
              return (
                <tr key={first!.number}>
                  <th scope="row" className={styles.remark}>
                    {words('trials.recipeShort', { emulsion, water, additive, filler })}
                  </th>
                  <td className={styles.remark}>
                    {all
                      .map(({ number, temperature, mixTime }) =>
                        words('trials.timeAt', { number, temperature: digits(temperature), seconds: digits(mixTime) }),
                      )
                      .join(' · ')}
                  </td>
                  <td className={styles.figure}>{digits(secondsForEachDegree, 1)}</td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </div>
    </section>
  )
}

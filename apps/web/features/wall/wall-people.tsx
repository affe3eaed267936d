'use client'

import type { WallShown } from '@curebook/contract/wall'
import { fitting } from '@curebook/trade/procedure/wall'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import { More, Part } from './wall-part.tsx'
import { goesOn } from './wall-time.ts'
import styles from './wall.module.css'

const places = 5

/** Who is at work and where, as the laboratory shows its people to visitors. */
export function WallPeople({ wall: { people, atWork, names }, now }: { wall: WallShown; now: number }) {
  const words = useWords()
  const { instant } = useLaboratoryFormat()
  const { rows, more } = fitting(people, places)
  const empty =
    atWork === 0 ? words('wall.nobody') : names === 'none' ? words('wall.atWorkCount', { count: atWork }) : null
  return (
    <Part title={words('wall.people')} empty={empty}>
      {rows.map((person, index) => (
        <li key={index} className={styles.row}>
          <span className={styles.line}>
            <b className={styles.person}>{person.shownAs}</b>
            <span className={styles.step}>
              {person.place === null
                ? person.stepTitle
                : words('wall.stepAt', { step: person.stepTitle, place: person.place })}
            </span>
            <span className={styles.left}>
              {goesOn(person.lastAt, now)
                ? words('wall.since', { time: instant(person.since, 'clock') })
                : words('wall.until', { time: instant(person.lastAt, 'clock') })}
            </span>
          </span>
        </li>
      ))}
      <More>{more > 0 && words('wall.more', { more })}</More>
    </Part>
  )
}

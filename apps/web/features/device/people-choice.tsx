'use client'

import type { DevicePeople } from '@curebook/contract/device'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { useSwitchPerson } from './device.queries.ts'
import { PinForm } from './pin-form.tsx'
import styles from './device.module.css'

/** Who else may have the device: a tap on the name, then the PIN. */
export function PeopleChoice({ people }: { people: DevicePeople['people'] }) {
  const words = useWords()
  const lab = useLaboratory()
  const change = useSwitchPerson(lab.id)
  const [chosen, setChosen] = useState<string>()
  const person = people.find(({ membershipId }) => membershipId === chosen)
  return (
    <div className="stack">
      <div className={styles.people}>
        {people
          .filter(({ current }) => !current)
          .map(({ membershipId, name, initials }) => (
            <Button
              key={membershipId}
              size="bench"
              aria-pressed={membershipId === chosen}
              onClick={() => {
                change.reset()
                setChosen(membershipId)
              }}
            >
              {words('device.personNamed', { name, initials })}
            </Button>
          ))}
      </div>
      {person !== undefined && (
        <PinForm
          key={person.membershipId}
          button={words('device.goOnAs', { name: person.name })}
          busy={change.isPending || change.isSuccess}
          error={change.error}
          onPin={(pin) => change.mutate({ membershipId: person.membershipId, pin })}
        />
      )}
    </div>
  )
}

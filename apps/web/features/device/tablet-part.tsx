'use client'

import { Button } from '#components/button.tsx'
import { Checkbox, RadioGroup } from '#components/choices.tsx'
import { Select } from '#components/select.tsx'
import { NotificationLine } from './notification-line.tsx'
import { firstMinutes, hands, lastMinutes, type Hand } from '#lib/tablet/tablet-settings.ts'
import { tellSignal } from '#lib/tablet/tell-signal.ts'
import { useTabletSettings } from '#lib/tablet/use-tablet-settings.ts'
import { useWords } from '#lib/words.ts'

/** How this device sounds, warns and is held. It is kept on the device, at once, for whoever uses it. */
export function TabletPart() {
  const words = useWords()
  const [settings, change] = useTabletSettings()
  const { first, last } = settings.warnings
  const minutes = (value: number) => ({ value: String(value), label: words('device.minutes', { minutes: value }) })
  return (
    <div className="stack narrow">
      <p className="quiet">{words('device.tabletAbout')}</p>
      <Checkbox
        name="sound"
        label={words('device.sound')}
        checked={settings.sound}
        onChange={(event) => change({ sound: event.target.checked })}
      />
      <Checkbox
        name="vibration"
        label={words('device.vibration')}
        checked={settings.vibration}
        onChange={(event) => change({ vibration: event.target.checked })}
      />
      <div className="row" role="group" aria-label={words('device.try')}>
        <Button onClick={() => tellSignal('found')}>{words('device.tryFound')}</Button>
        <Button onClick={() => tellSignal('wrong')}>{words('device.tryWrong')}</Button>
        <Button onClick={() => tellSignal('warning')}>{words('device.tryWarning')}</Button>
      </div>
      <Select
        name="firstWarning"
        label={words('device.firstWarning')}
        options={firstMinutes.map(minutes)}
        value={String(first)}
        onChange={(event) => {
          const chosen = Number(event.target.value)
          // Two warnings stay two: the last one moves below the first.
          const below = lastMinutes.filter((value) => value < chosen)
          change({ warnings: { first: chosen, last: below.find((value) => value === last) ?? below.at(-1) ?? 1 } })
        }}
      />
      <Select
        name="lastWarning"
        label={words('device.lastWarning')}
        options={lastMinutes.filter((value) => value < first).map(minutes)}
        value={String(last)}
        onChange={(event) => change({ warnings: { first, last: Number(event.target.value) } })}
      />
      <NotificationLine />
      <Checkbox
        name="storeSent"
        label={words('device.storeSent')}
        checked={settings.storeSent}
        onChange={(event) => change({ storeSent: event.target.checked })}
      />
      <Checkbox
        name="speech"
        label={words('device.speech')}
        checked={settings.speech}
        onChange={(event) => change({ speech: event.target.checked })}
      />
      <RadioGroup
        name="hand"
        label={words('device.hand')}
        hint={words('device.handHint')}
        choices={hands.map((hand) => ({ value: hand, label: words(`device.handOf.${hand}`) }))}
        value={settings.hand}
        onValue={(hand) => change({ hand: hand as Hand })}
      />
    </div>
  )
}

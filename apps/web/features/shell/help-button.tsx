'use client'

import { useRouter } from 'next/navigation'
import { useCallback, useState } from 'react'
import { Button } from '#components/button.tsx'
import { Checkbox } from '#components/choices.tsx'
import { Dialog } from '#components/dialog.tsx'
import { Icon } from '#components/icon.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useShortcut, useShortcuts } from '#lib/shortcuts.tsx'
import { useWords } from '#lib/words.ts'
import { useOpenScreens } from './navigation.tsx'
import styles from './shell.module.css'

/** Help in the same place on every page: whom to ask, the keys, and the switch that turns them off. */
export function HelpButton() {
  const words = useWords()
  const [open, setOpen] = useState(false)
  const show = useCallback(() => setOpen(true), [])
  useShortcut('?', words('shell.help.keyHelp'), show)
  return (
    <>
      {useOpenScreens().map((screen) => (
        <ScreenKey key={screen.key} keys={screen.keys} path={screen.path} label={words(`shell.screen.${screen.key}`)} />
      ))}
      <Button onClick={show}>
        <Icon name="question" />
        {words('shell.help.button')}
      </Button>
      {open && <HelpDialog onClose={() => setOpen(false)} />}
    </>
  )
}

function ScreenKey({ keys, path, label }: { keys: string; path: string; label: string }) {
  const router = useRouter()
  const { short } = useLaboratory()
  useShortcut(keys, label, () => router.push(`/l/${short}/${path}`))
  return null
}

function HelpDialog({ onClose }: { onClose: () => void }) {
  const words = useWords()
  const { listed, on, setOn } = useShortcuts()
  const { settings } = useLaboratory()
  return (
    <Dialog title={words('shell.help.title')} onClose={onClose}>
      <p>
        {words('shell.help.ask', {
          contact: settings.contact === '' ? words('shell.help.yourManager') : settings.contact,
        })}
      </p>
      <p>{words('shell.help.caution')}</p>
      <h3>{words('shell.help.keys')}</h3>
      <Checkbox
        name="shortcuts"
        label={words('shell.help.switch')}
        checked={on}
        onChange={(event) => setOn(event.target.checked)}
      />
      <dl className={styles.keys}>
        {listed.map(({ keys, label }) => (
          <div key={keys} style={{ display: 'contents' }}>
            <dt>
              {keys.split(' ').map((key, index) => (
                <span key={index}>
                  {index > 0 ? ` ${words('shell.help.then')} ` : ''}
                  <kbd>{key}</kbd>
                </span>
              ))}
            </dt>
            <dd>{label}</dd>
          </div>
        ))}
      </dl>
    </Dialog>
  )
}

'use client'

import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { useWords } from '#lib/words.ts'
import { WallBoard } from './wall-board.tsx'
import { WallPairing } from './wall-pairing.tsx'
import { wallQueries } from './wall.queries.ts'
import styles from './wall.module.css'

/** A browser on the wall: it waits for a code, shows the wall, or says that it is one no more. */
export function WallScreen() {
  const words = useWords()
  const { data, isError } = useQuery(wallQueries.look())
  if (data === undefined)
    return <Alone title={words('wall.title')}>{words(isError ? 'wall.notReached' : 'wall.looking')}</Alone>
  if (data.state === 'unpaired') return <WallPairing />
  if (data.state === 'ended')
    return <Alone title={words('wall.ended', { screen: data.screen })}>{words('wall.endedAbout')}</Alone>
  return <WallBoard wall={data} failed={isError} />
}

function Alone({ title, children }: { title: string; children: ReactNode }) {
  const words = useWords()
  return (
    <main className={`${styles.wall} ${styles.alone}`}>
      <title>{`${words('wall.title')} – ${words('common.site')}`}</title>
      <h1>{title}</h1>
      <p role="status">{children}</p>
    </main>
  )
}

'use client'

import type { WallScreen } from '@curebook/contract/wall'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { DataTable, type Column } from '#components/data-table.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { StatusMark, type Status } from '#components/status-mark.tsx'
import { TimeText } from '#components/time-text.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { CodeDialog } from './code-dialog.tsx'
import { MakeScreenDialog } from './make-screen-dialog.tsx'
import { useEndWallScreen, wallScreenQueries } from './wall-screens.queries.ts'

const marks: Record<WallScreen['state'], Status> = { waiting: 'open', paired: 'done', ended: 'ended' }

/** The browsers that hang on the walls: who made each, when it last looked, and ending one. */
export function WallScreensPart() {
  const words = useWords()
  const lab = useLaboratory()
  const screens = useQuery(wallScreenQueries.list(lab.id))
  const [open, setOpen] = useState<'make' | WallScreen>()
  const close = () => setOpen(undefined)
  return (
    <section className="stack" aria-labelledby="wall-screens">
      <h2 id="wall-screens">{words('wallScreens.title')}</h2>
      <p className="prose">{words('wallScreens.about')}</p>
      <div>
        <Button onClick={() => setOpen('make')}>{words('wallScreens.make')}</Button>
      </div>
      <Loaded query={screens} what={words('wallScreens.theScreens')}>
        {(rows) => <Screens rows={rows} onCode={setOpen} />}
      </Loaded>
      {open === 'make' && <MakeScreenDialog onClose={close} />}
      {open !== undefined && open !== 'make' && <CodeDialog screen={open} onClose={close} />}
    </section>
  )
}

function Screens({ rows, onCode }: { rows: readonly WallScreen[]; onCode: (screen: WallScreen) => void }) {
  const words = useWords()
  const lab = useLaboratory()
  const end = useEndWallScreen(lab.id)
  const confirm = useConfirmation()
  const columns: readonly Column<WallScreen>[] = [
    { key: 'name', head: words('wallScreens.name'), cell: ({ name }) => name, sort: ({ name }) => name },
    {
      key: 'state',
      head: words('wallScreens.state'),
      cell: ({ state, codeUntil }) => (
        <StatusMark status={marks[state]}>
          {words(state === 'waiting' && codeUntil === null ? 'wallScreens.ranOut' : `wallScreens.is.${state}`)}
        </StatusMark>
      ),
      sort: ({ state }) => state,
    },
    {
      key: 'made',
      head: words('wallScreens.made'),
      cell: ({ at, by }) => (
        <>
          {by.name}, <TimeText at={at} look="short" />
        </>
      ),
      sort: ({ at }) => at,
    },
    {
      key: 'seen',
      head: words('wallScreens.seen'),
      cell: ({ seenAt }) => (seenAt === null ? words('wallScreens.never') : <TimeText at={seenAt} look="short" />),
      sort: ({ seenAt }) => seenAt ?? '',
    },
    {
      key: 'acts',
      head: <span className="sr-only">{words('wallScreens.acts')}</span>,
      cell: (screen) =>
        screen.ended === null ? (
          <span className="row">
            <Button
              size="small"
              onClick={() => onCode(screen)}
              aria-label={words('wallScreens.newCodeOf', { name: screen.name })}
            >
              {words('wallScreens.newCode')}
            </Button>
            <Button
              size="small"
              tone="danger"
              busy={end.isPending}
              onClick={() =>
                end.mutate(screen.id, {
                  onSuccess: () => confirm(words('wallScreens.endedNow', { name: screen.name })),
                })
              }
              aria-label={words('wallScreens.endOf', { name: screen.name })}
            >
              {words('wallScreens.end')}
            </Button>
          </span>
        ) : (
          <>
            {screen.ended.by.name}, <TimeText at={screen.ended.at} look="short" />
          </>
        ),
    },
  ]
  return (
    <>
      {end.isError && <p role="alert">{end.error.message}</p>}
      <DataTable
        caption={words('wallScreens.title')}
        captionHidden
        columns={columns}
        rows={rows}
        idOf={({ id }) => id}
        sortParam="wall-screens"
        empty={<EmptyState title={words('wallScreens.none')} />}
      />
    </>
  )
}

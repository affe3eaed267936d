'use client'

import type { Schedule, ScheduleRow } from '@curebook/contract/schedule'
import { useMemo } from 'react'
import { usePathname, useRouter } from 'next/navigation'
import { Button } from '#components/button.tsx'
import { Chip } from '#components/chip.tsx'
import { Select, type Option } from '#components/select.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { looks, nobody, withoutFilters, type Filters } from './schedule-view.ts'

export type FilterName = keyof Filters

/** The filters as they stand in the address, so that Back, a reload and a shared link give the same view. */
export function useFilters() {
  const router = useRouter()
  const path = usePathname()
  const [show, setShow] = useSearchParam('show')
  const [person, setPerson] = useSearchParam('person')
  const [method, setMethod] = useSearchParam('method')
  const [design, setDesign] = useSearchParam('design')
  const filters = useMemo(() => ({ show, person, method, design }), [show, person, method, design])
  const setters = { show: setShow, person: setPerson, method: setMethod, design: setDesign }
  return {
    filters,
    set: (name: FilterName, value: string) => setters[name](value),
    clear: () => router.replace(path + withoutFilters(window.location.search), { scroll: false }),
  }
}

/** What the filters are called, in the order in which they are set; for chips and for the name of a file. */
export function useFilterNames(rows: readonly ScheduleRow[], people: Schedule['people'], filters: Filters) {
  const words = useWords()
  const { show, person, method, design } = filters
  const names: { readonly name: FilterName; readonly text: string }[] = []
  if (looks.some((look) => look === show)) names.push({ name: 'show', text: words(`schedule.look.${show}`) })
  if (person !== '')
    names.push({
      name: 'person',
      text:
        person === nobody
          ? words('schedule.nobody')
          : (people.find(({ membershipId }) => membershipId === person)?.name ?? words('schedule.unknownPerson')),
    })
  if (method !== '')
    names.push({ name: 'method', text: rows.find((row) => row.methodKey === method)?.methodName ?? method })
  if (design !== '')
    names.push({
      name: 'design',
      text: rows.find((row) => row.designId === design)?.designName ?? words('schedule.unknownDesign'),
    })
  return names
}

export function ScheduleFilters({
  rows,
  people,
  filters,
  set,
  clear,
}: {
  rows: readonly ScheduleRow[]
  people: Schedule['people']
  filters: Filters
  set: (name: FilterName, value: string) => void
  clear: () => void
}) {
  const words = useWords()
  const names = useFilterNames(rows, people, filters)
  const designs = distinct(rows.map(({ designId, designName }) => ({ value: designId, label: designName })))
  const methods = distinct(rows.map(({ methodKey, methodName }) => ({ value: methodKey, label: methodName })))
  const persons = [
    { value: nobody, label: words('schedule.nobody') },
    ...people.map(({ membershipId, name }) => ({ value: membershipId, label: name })),
  ]
  const select = (name: FilterName, options: readonly Option[]) => (
    <Select
      name={name}
      label={words(`schedule.filter.${name}`)}
      prompt={words('schedule.all')}
      value={options.some(({ value }) => value === filters[name]) ? filters[name] : ''}
      onChange={(event) => set(name, event.target.value)}
      options={options}
    />
  )
  return (
    <div className="stack stack-tight no-print" role="search" aria-label={words('schedule.filters')}>
      <div className="columns" style={{ '--column': '10rem' } as React.CSSProperties}>
        {select(
          'show',
          looks.map((value) => ({ value, label: words(`schedule.look.${value}`) })),
        )}
        {select('person', persons)}
        {select('method', methods)}
        {select('design', designs)}
      </div>
      {names.length > 0 && (
        <div className="row">
          {names.map(({ name, text }) => (
            <Chip key={name} name={text} onRemove={() => set(name, '')}>
              {text}
            </Chip>
          ))}
          <Button size="small" onClick={clear}>
            {words('schedule.clearFilters')}
          </Button>
        </div>
      )}
    </div>
  )
}

function distinct(options: readonly Option[]): readonly Option[] {
  return [...new Map(options.map((option) => [option.value, option])).values()].sort((one, other) =>
    one.label.localeCompare(other.label),
  )
}

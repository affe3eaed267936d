'use client'

import type { TestView } from '@curebook/contract/bench'
import type { InstrumentKind, StepDeclaration } from '@curebook/trade/procedure/declaration'
import { useContext, useRef, useState, type FormEvent } from 'react'
import { Button } from '#components/button.tsx'
import { DayField } from '#components/day-field.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { MainActs } from '#components/main-acts.tsx'
import { SaveState } from '#components/save-state.tsx'
import { TextField } from '#components/text-field.tsx'
import { useConfirmation } from '#components/toast.tsx'
import { sendFile } from '#features/attachments/attachments.queries.ts'
import { instrumentsOfReading, instrumentsOfStep, type BenchInstrument } from '#features/bench/instrument-choice.ts'
import { InstrumentField } from '#features/bench/instrument-field.tsx'
import { ClockOffset } from '#features/bench/laboratory-clock.ts'
import { CellField } from '#features/designs/cell-field.tsx'
import { PhotoField } from '#features/observations/photo-field.tsx'
import { pictureToSend } from '#features/observations/picture.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { dayOf } from '#lib/laboratory-time.ts'
import { newId } from '#lib/new-id.ts'
import { useWords } from '#lib/words.ts'
import { wordsOfFailure } from './failure.ts'
import { cellKey, clockKey, filledCells } from './sheet-cells.ts'
import { sheetColumns, type SheetColumn, type SheetRow } from './sheet-columns.ts'
import { ColumnHead } from './sheet-paper.tsx'
import { useSheetDraft } from './use-sheet-draft.ts'
import { useSheetSending } from './use-sheet-sending.ts'
import styles from './sheet.module.css'

/** What stands on a filled sheet, entered as from paper, with its photograph. A box that is refused keeps what was typed. */
export function SheetEntry({ view, step, rows }: { view: TestView; step: StepDeclaration; rows: readonly SheetRow[] }) {
  const words = useWords()
  const lab = useLaboratory()
  const offset = useContext(ClockOffset)
  const confirm = useConfirmation()
  const sending = useSheetSending({ lab: lab.id, membershipId: lab.me.membershipId }, step.key)
  const instruments = useSheetInstruments(step, view)
  const [day] = useState(() => dayOf(view.now, lab.zone))
  const [file, setFile] = useState<File | null>(null)
  const [fileError, setFileError] = useState<string>()
  const [clockErrors, setClockErrors] = useState<ReadonlyMap<string, string>>(new Map())
  const [dayError, setDayError] = useState<string>()
  const [nothing, setNothing] = useState(false)
  const kept = useRef<{ readonly file: File; readonly id: string; readonly stored: boolean }>(undefined)
  const asked = useRef(new Map<string, string>())
  const columns = sheetColumns(step, { start: words('bench.act.start'), end: words('bench.act.end') })
  const hasReadings = columns.some(({ kind }) => kind === 'reading')
  const draft = useSheetDraft(lab.me.membershipId, `${view.design.id}/${view.method.key}/${step.key}`)

  /** The photograph goes first; sent once, it is named by every reading of the sheet. */
  async function photographId(): Promise<string | undefined> {
    if (file === null) return undefined
    if (kept.current?.file === file && kept.current.stored) return kept.current.id
    // Sent again after a lost answer, it is the same picture.
    const id = kept.current?.file === file ? kept.current.id : newId()
    kept.current = { file, id, stored: false }
    const { attachmentBytes } = await import('@curebook/contract/attachments')
    const picture = await pictureToSend(file, attachmentBytes)
    await sendFile(lab, { id, file: picture, field: 'attachmentId' })
    kept.current = { file, id, stored: true }
    return id
  }

  async function submit(form: FormData) {
    const chosenDay = String(form.get('day'))
    setNothing(false)
    setDayError(chosenDay === '' ? words('sheet.needDay') : undefined)
    if (chosenDay === '') return
    const cells = filledCells((name) => String(form.get(name) ?? ''), {
      rows,
      columns,
      instrumentOf: instruments.of,
      parameters: view.edition.parameters,
      day: chosenDay,
      commonClock: String(form.get('clock') ?? ''),
      at: { zone: lab.zone, deviceNow: Date.now(), offset },
    }).filter(({ key }) => !sending.stored.has(key))
    const said = new Map<string, string>()
    const clocks = new Map<string, string>()
    for (const { key, row, column, typed, fault, refusal, question } of cells) {
      if (fault)
        (column.kind === 'act' ? said : clocks).set(
          column.kind === 'act' ? key : clockKey(row),
          words(`bench.when.fault.${fault}`),
        )
      if (refusal) said.set(key, refusal)
      else if (question && asked.current.get(key) !== typed) {
        asked.current.set(key, typed)
        said.set(key, words('sheet.asked', { question }))
      }
    }
    setClockErrors(clocks)
    sending.tell(said)
    setNothing(cells.length === 0)
    if (said.size + clocks.size > 0 || cells.length === 0) return
    setFileError(undefined)
    let attachmentId: string | undefined
    try {
      attachmentId = await photographId()
    } catch (cause) {
      setFileError(wordsOfFailure(cause))
      return
    }
    const refused = await sending.send(
      cells.map((cell) => ({
        cell,
        instrumentId: instruments.of(cell.column)?.id ?? null,
        confirmedOdd: cell.question !== undefined,
      })),
      attachmentId,
    )
    draft.drop(cells.map(({ key }) => key).filter((key) => !refused.has(key)))
    confirm(words('sheet.stored', { stored: cells.length - refused.size, refused: refused.size }))
  }

  return (
    <form
      className="stack"
      noValidate
      aria-busy={sending.sending}
      onInput={(event) => draft.keep(new FormData(event.currentTarget))}
      onSubmit={(event: FormEvent<HTMLFormElement>) => {
        event.preventDefault()
        if (!sending.sending) void submit(new FormData(event.currentTarget))
      }}
    >
      <FormErrors errors={nothing ? { form: words('sheet.nothingFilled') } : {}} />
      <p className="prose">{words('sheet.enterAbout')}</p>
      <div className="columns">
        <DayField name="day" label={words('sheet.day')} defaultValue={draft.typed('day') || day} error={dayError} />
        {hasReadings && (
          <TextField
            name="clock"
            label={words('sheet.clock')}
            hint={words('sheet.clockHint')}
            inputMode="numeric"
            defaultValue={draft.typed('clock')}
            autoComplete="off"
          />
        )}
        <PhotoField
          name="attachmentId"
          label={words('sheet.photo')}
          hint={words('sheet.photoHint')}
          error={fileError}
          onFile={setFile}
        />
      </div>
      {instruments.fields.map(({ kind, fitting, chosen, needed }) => (
        <InstrumentField
          key={kind}
          fitting={fitting}
          chosen={chosen}
          needed={needed}
          onChoose={(id) => instruments.choose(kind, id)}
        />
      ))}
      <div className={styles.scroll}>
        <table className={styles.boxes}>
          <thead>
            <tr>
              <th scope="col">{words('sheet.specimen')}</th>
              {columns.map((column) => (
                <th key={column.key} scope="col">
                  <ColumnHead column={column} />
                </th>
              ))}
              {hasReadings && <th scope="col">{words('sheet.readAt')}</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.testId}>
                <th scope="row">
                  <strong>{row.label}</strong> <span className="nowrap">{row.code}</span>
                </th>
                {columns.map((column) => (
                  <td key={column.key}>
                    <Box row={row} column={column} sending={sending} typed={draft.typed(cellKey(row, column))} />
                  </td>
                ))}
                {hasReadings && (
                  <td>
                    <CellField
                      name={clockKey(row)}
                      label={words('sheet.boxOf', { box: words('sheet.readAt'), label: row.label, code: row.code })}
                      inputMode="numeric"
                      defaultValue={draft.typed(clockKey(row))}
                      error={clockErrors.get(clockKey(row))}
                    />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <MainActs>
        <Button type="submit" tone="main" size="bench" busy={sending.sending}>
          {words('sheet.store')}
        </Button>
        <SaveState saving={sending.sending ? { state: 'saving' } : { state: 'idle' }} />
      </MainActs>
    </form>
  )
}

function Box({
  row,
  column,
  sending,
  typed,
}: {
  row: SheetRow
  column: SheetColumn
  sending: ReturnType<typeof useSheetSending>
  /** What was typed before a reload. */
  typed: string
}) {
  const words = useWords()
  const key = cellKey(row, column)
  const stored = sending.stored.get(key)
  if (stored !== undefined) return <span className={styles.told}>{words('sheet.isStored', { typed: stored })}</span>
  const label = words('sheet.boxOf', { box: column.label, label: row.label, code: row.code })
  const choices = column.kind === 'reading' ? column.slot.declaration.choices : undefined
  if (choices === undefined)
    return (
      <CellField
        name={key}
        label={label}
        inputMode={column.kind === 'act' ? 'numeric' : 'text'}
        defaultValue={typed}
        error={sending.errors.get(key)}
      />
    )
  return (
    <span data-field={key}>
      <select name={key} aria-label={label} defaultValue={typed}>
        <option value="">{words('sheet.nothing')}</option>
        {choices.map((choice) => (
          <option key={choice.key} value={choice.key}>
            {choice.label}
          </option>
        ))}
      </select>
      {sending.errors.has(key) && <span className={styles.told}>{sending.errors.get(key)}</span>}
    </span>
  )
}

/** Which instruments the sheet was filled with: one for its acts, one for each kind that its readings are read on. */
function useSheetInstruments(step: StepDeclaration, view: TestView) {
  const [chosen, setChosen] = useState<Readonly<Record<string, string>>>({})
  const acts = instrumentsOfStep(step, view.instruments)
  const kinds = [...new Set(step.readings.flatMap(({ instrument }) => instrument ?? []))]
  const pick = (kind: string, fitting: readonly BenchInstrument[]) =>
    fitting.find(({ id }) => id === chosen[kind]) ?? (fitting.length === 1 ? fitting[0] : undefined)
  const fields = [
    ...(step.events.length > 0
      ? [{ kind: 'act', fitting: acts.fitting, chosen: pick('act', acts.fitting), needed: acts.needed }]
      : []),
    ...kinds.map((kind: InstrumentKind) => {
      const fitting = view.instruments.filter((one) => one.kind === kind)
      return { kind, fitting, chosen: pick(kind, fitting), needed: false }
    }),
  ]
  return {
    fields,
    choose: (kind: string, id: string) => setChosen((before) => ({ ...before, [kind]: id })),
    of: (column: SheetColumn): BenchInstrument | undefined => {
      if (column.kind === 'act') return pick('act', acts.fitting)
      const { instrument } = column.slot.declaration
      return instrument && pick(instrument, instrumentsOfReading(column.slot.declaration, view.instruments))
    },
  }
}

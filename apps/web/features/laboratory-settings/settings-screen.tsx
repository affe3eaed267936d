'use client'

import type { LaboratoryView, UpdateLaboratory } from '@curebook/contract/laboratory'
import { useState } from 'react'
import { Button } from '#components/button.tsx'
import { CheckboxGroup, RadioGroup } from '#components/choices.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { FieldSet } from '#components/field-set.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { SaveState } from '#components/save-state.tsx'
import { savingOf } from '#components/saving-of.ts'
import { TextArea, TextField } from '#components/text-field.tsx'
import { ZoneSelect } from '#components/zone-select.tsx'
import { WallScreensPart } from '#features/wall-screens/wall-screens-part.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { onFields, readSettings, writeShifts } from './settings-form-data.ts'
import { useUpdateLaboratory } from './settings.queries.ts'

export function SettingsScreen() {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <div className="stack">
      <PageHeading screen={words('settings.title')} under={words('settings.about')} />
      {lab.may('laboratory:update') ? (
        <SettingsPart settings={lab.settings} />
      ) : (
        <EmptyState title={words('settings.notAllowed')}>{words('settings.notAllowedHelp')}</EmptyState>
      )}
      {lab.may('wall-screen:create') && <WallScreensPart />}
    </div>
  )
}

/** The form as it was opened, until it is read anew. */
function SettingsPart({ settings }: { settings: LaboratoryView }) {
  const [readings, setReadings] = useState(0)
  return <SettingsForm key={readings} settings={settings} onReadAnew={() => setReadings((count) => count + 1)} />
}

function SettingsForm({ settings, onReadAnew }: { settings: LaboratoryView; onReadAnew: () => void }) {
  const words = useWords()
  // What the change starts from: another's change meanwhile refuses this one and must not slip under it.
  const [version, setVersion] = useState(settings.version)
  const update = useUpdateLaboratory(settings.id, version)
  const { errors: told, onSubmit } = useCheckedSubmit<UpdateLaboratory>({
    schema: () => import('@curebook/contract/laboratory').then(({ UpdateLaboratorySchema }) => UpdateLaboratorySchema),
    read: readSettings,
    save: {
      mutate: (body) => update.mutate(body, { onSuccess: (stored) => setVersion(stored.version) }),
      error: update.error,
      isPending: update.isPending,
    },
  })
  const errors = onFields(told, {
    'closedDays.dates': words('settings.needDates'),
    shifts: words('settings.needShifts'),
    breaks: words('settings.needBreaks'),
  })
  const changedMeanwhile = update.error instanceof ApiProblem && update.error.code === 'changed-meanwhile'
  const choices = (field: string, values: readonly string[]) =>
    values.map((value) => ({ value, label: words(`settings.${field}.${value}`) }))
  return (
    <form className="stack" style={{ maxWidth: '48rem' }} onSubmit={onSubmit} noValidate aria-busy={update.isPending}>
      <FormErrors errors={errors} />
      <FieldSet legend={words('settings.laboratory')}>
        <TextField name="name" label={words('settings.name')} defaultValue={settings.name} error={errors.name} />
        <TextArea
          name="address"
          label={words('settings.address')}
          defaultValue={settings.address}
          rows={3}
          error={errors.address}
        />
        <TextField
          name="contact"
          label={words('settings.contact')}
          hint={words('settings.contactHint')}
          defaultValue={settings.contact}
          error={errors.contact}
        />
      </FieldSet>
      <FieldSet legend={words('settings.time')}>
        <ZoneSelect
          name="zone"
          label={words('settings.zone')}
          hint={words('settings.zoneHint')}
          initial={settings.zone}
          error={errors.zone}
        />
        <CheckboxGroup
          name="closedDays.weekdays"
          label={words('settings.weekdays')}
          defaultValues={settings.closedDays.weekdays.map(String)}
          error={errors['closedDays.weekdays']}
          choices={['1', '2', '3', '4', '5', '6', '7'].map((value) => ({
            value,
            label: words(`settings.weekday.${value}`),
          }))}
        />
        <TextArea
          name="closedDays.dates"
          label={words('settings.dates')}
          hint={words('settings.datesHint')}
          defaultValue={settings.closedDays.dates.join('\n')}
          error={errors['closedDays.dates']}
        />
        <TextArea
          name="shifts"
          label={words('settings.shifts')}
          hint={words('settings.shiftsHint')}
          defaultValue={writeShifts(settings.shifts)}
          rows={3}
          error={errors.shifts}
        />
        <TextArea
          name="breaks"
          label={words('settings.breaks')}
          hint={words('settings.breaksHint')}
          defaultValue={writeShifts(settings.breaks)}
          rows={2}
          error={errors.breaks}
        />
      </FieldSet>
      <FieldSet legend={words('settings.writing')}>
        <RadioGroup
          name="decimalSign"
          label={words('settings.decimalSign')}
          defaultValue={settings.decimalSign}
          error={errors.decimalSign}
          choices={choices('decimalSign', ['point', 'comma'])}
        />
        <RadioGroup
          name="units"
          label={words('settings.units')}
          hint={words('settings.unitsHint')}
          defaultValue={settings.units}
          error={errors.units}
          choices={choices('units', ['si', 'us'])}
        />
        <RadioGroup
          name="paper"
          label={words('settings.paper')}
          defaultValue={settings.paper}
          error={errors.paper}
          choices={choices('paper', ['a4', 'letter'])}
        />
        <TextArea
          name="accreditation"
          label={words('settings.accreditation')}
          hint={words('settings.accreditationHint')}
          defaultValue={settings.accreditation ?? ''}
          rows={3}
          error={errors.accreditation}
        />
      </FieldSet>
      <FieldSet legend={words('settings.walls')}>
        <RadioGroup
          name="wallNames"
          label={words('settings.wallNames')}
          hint={words('settings.wallNamesHint')}
          defaultValue={settings.wallNames}
          error={errors.wallNames}
          choices={choices('wallNames', ['full', 'initials', 'none'])}
        />
      </FieldSet>
      <div className="row">
        <Button type="submit" tone="main" busy={update.isPending}>
          {words('settings.save')}
        </Button>
        {changedMeanwhile && <Button onClick={onReadAnew}>{words('settings.readAnew')}</Button>}
        <SaveState saving={savingOf(update)} />
      </div>
    </form>
  )
}

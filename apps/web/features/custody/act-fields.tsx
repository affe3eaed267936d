'use client'

import { useQuery } from '@tanstack/react-query'
import Link from 'next/link'
import { MeasureField } from '#components/measure-field.tsx'
import { Select } from '#components/select.tsx'
import { TextArea, TextField } from '#components/text-field.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { fieldsOf, reasoned, type AskedKind } from './act-form.ts'
import { ConditionField, SealField } from './condition-field.tsx'
import { custodyQueries } from './custody.queries.ts'

type Errors = Readonly<Record<string, string>>

/** The fields that an act asks for, in the order in which they are looked at. */
export function ActFields({ kind, errors }: { kind: AskedKind; errors: Errors }) {
  const words = useWords()
  const asks = (name: (typeof fieldsOf)[AskedKind][number]) => fieldsOf[kind].includes(name)
  return (
    <>
      {asks('from') && (
        <TextField
          name="from"
          label={words('custody.from')}
          hint={words('custody.fromHint')}
          autoComplete="off"
          error={errors.from}
        />
      )}
      {asks('to') && (
        <TextField
          name="to"
          label={words('custody.to')}
          hint={words('custody.toHint')}
          autoComplete="off"
          error={errors.to}
        />
      )}
      {asks('signedFor') && (
        <TextField
          name="signedFor"
          label={words('custody.signedFor')}
          hint={words('custody.signedForHint')}
          autoComplete="off"
          error={errors.signedFor}
        />
      )}
      {asks('placeId') && <PlaceField optional={kind === 'received'} error={errors.placeId} />}
      {asks('mass') && (
        <MeasureField
          name="mass"
          label={words('custody.mass')}
          hint={words('custody.massHint')}
          quantity={words('custody.massShort')}
          unit="g"
          optional
          error={errors.mass}
        />
      )}
      {asks('condition') && <ConditionField error={errors.condition} />}
      {asks('sealIntact') && <SealField error={errors.sealIntact} />}
      {asks('temperature') && (
        <MeasureField
          name="temperature"
          label={words('custody.temperature')}
          quantity={words('custody.temperatureShort')}
          unit="°C"
          mayBeNegative
          optional
          error={errors.temperature}
        />
      )}
      <TextArea
        name="note"
        label={reasoned.includes(kind) ? words(`custody.reason.${kind}`) : words('custody.note')}
        rows={2}
        error={errors.note}
      />
    </>
  )
}

/** Places that can have custody; where there is none yet, the way to make one. */
export function PlaceField({
  name = 'placeId',
  optional = false,
  defaultValue,
  error,
}: {
  name?: string
  optional?: boolean
  defaultValue?: string
  error?: string
}) {
  const words = useWords()
  const lab = useLaboratory()
  const query = useQuery(custodyQueries.places(lab.id))
  const guarded = (query.data?.items ?? []).filter(({ accessControlled }) => accessControlled)
  return (
    <div className="stack stack-tight">
      <Select
        // What is chosen at first can be shown once the places are here.
        key={String(query.isSuccess)}
        defaultValue={defaultValue}
        name={name}
        label={words(optional ? 'custody.placeStored' : 'custody.place')}
        hint={words(optional ? 'custody.placeStoredHint' : 'custody.placeHint')}
        prompt={words(optional ? 'custody.withMe' : 'custody.choosePlace')}
        options={guarded.map((place) => ({ value: place.id, label: place.name }))}
        error={error ?? (query.isError ? words('custody.noPlacesLoaded') : undefined)}
      />
      {query.isSuccess && guarded.length === 0 && (
        <p className="small">
          {words('custody.noPlaceYet')} <Link href={`/l/${lab.short}/materials/places`}>{words('custody.places')}</Link>
        </p>
      )}
    </div>
  )
}

'use client'

import { useQuery } from '@tanstack/react-query'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { Button, ButtonLink } from '#components/button.tsx'
import { EmptyState } from '#components/empty-state.tsx'
import { Loaded } from '#components/loaded.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useSearchParam } from '#lib/search-param.ts'
import { useWords } from '#lib/words.ts'
import { BoundTable } from './bound-table.tsx'
import { EditionList } from './edition-list.tsx'
import { ExamplePart } from './example-part.tsx'
import { LimitPart } from './limit-part.tsx'
import { groupOf } from './method-groups.ts'
import { ResultPart } from './result-part.tsx'
import { shownEdition } from './editions.ts'
import { methodQueries, type Method } from './methods.queries.ts'
import { stepLike } from './step-like.ts'
import { StepPart } from './step-part.tsx'
import { WindowPart } from './window-part.tsx'

/** One method as it is worked by here, to be read and printed by an assessor: what it gives and answers, how it is done, every bound, and a case worked. */
export function MethodScreen({ methodKey }: { methodKey: string }) {
  const words = useWords()
  const lab = useLaboratory()
  const mayRead = lab.may('method:read')
  const query = useQuery({ ...methodQueries.one(lab.id, methodKey), enabled: mayRead })
  return (
    <div className="stack stack-wide">
      <div className="stack">
        <Breadcrumb trail={[{ href: `/l/${lab.short}/methods`, label: words('methods.title') }]} />
        <PageHeading
          screen={words('methods.title')}
          thing={query.data?.name}
          under={query.data && <Under method={query.data} />}
          failed={query.isError || !mayRead}
          actions={
            query.data && (
              <>
                <Button onClick={() => window.print()}>{words('methods.print')}</Button>
                {lab.may('method:edit') && (
                  <ButtonLink href={`/l/${lab.short}/methods/${methodKey}/change`}>
                    {words('methods.changeBound')}
                  </ButtonLink>
                )}
              </>
            )
          }
        />
      </div>
      {mayRead ? (
        <Loaded query={query} what={words('methods.thisOne')} height="40rem">
          {(method) => <Content method={method} />}
        </Loaded>
      ) : (
        <EmptyState title={words('methods.notShown')}>{words('methods.notShownMore')}</EmptyState>
      )}
    </div>
  )
}

function Under({ method }: { method: Method }) {
  const words = useWords()
  const { form, computation } = method
  return (
    <>
      {words('methods.underOne', {
        form: words(`methods.form.${form}`),
        group: words(`methods.group.${groupOf(method)}`),
        computation,
      })}
    </>
  )
}

function Content({ method }: { method: Method }) {
  const words = useWords()
  const [named] = useSearchParam('edition')
  const edition = shownEdition(method.editions, named)
  if (edition === undefined) return <EmptyState title={words('methods.noneInForce')} />
  return (
    <>
      <EditionList method={method} shown={edition} />
      <ResultPart method={method} />
      <LimitPart method={method} />
      <section className="stack" aria-labelledby="steps">
        <h2 id="steps">{words('methods.howItIsDone')}</h2>
        <p className="caution prose">{words('methods.caution')}</p>
        <ol className="plain-list stack">
          {method.steps.map((step, index) => (
            <li key={step.key}>
              <StepPart
                step={step}
                number={index + 1}
                parameters={edition.parameters}
                like={stepLike(method.steps, index)}
              />
            </li>
          ))}
        </ol>
      </section>
      {method.windows.length > 0 && (
        <WindowPart windows={method.windows} steps={method.steps} parameters={edition.parameters} />
      )}
      <BoundTable method={method} edition={edition} />
      <ExamplePart methodKey={method.key} />
    </>
  )
}

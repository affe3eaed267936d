'use client'

import type { Design } from '@curebook/contract/designs'
import Link from 'next/link'
import { Breadcrumb } from '#components/breadcrumb.tsx'
import { ButtonLink } from '#components/button.tsx'
import { PageHeading } from '#components/page-heading.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { compareSearch } from '#features/compare/compare-address.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useWords } from '#lib/words.ts'
import { isNewest } from './design-state.ts'
import { SentBack } from './sent-back.tsx'
import styles from './designs.module.css'

/** Whose design, in which state, how far; and, when it was sent back, why. */
export function DesignHeader({ design }: { design: Design }) {
  const words = useWords()
  const lab = useLaboratory()
  return (
    <>
      <Breadcrumb trail={[{ href: `/l/${lab.short}/designs`, label: words('designs.title') }]} />
      <PageHeading
        screen={words('designs.title')}
        thing={design.name}
        under={
          <span className={styles.headline}>
            <span>
              {words('designs.headline', {
                project: design.projectName,
                client: design.clientName,
                kind: words(`designs.kind.${design.kind}`),
              })}
            </span>
            <span>{words('designs.revisionNumber', { number: design.revision })}</span>
            <StatusMark status={design.state}>{words(`designs.state.${design.state}`)}</StatusMark>
            <span>{words('designs.progressOf', { done: design.testsDone, total: design.testsTotal })}</span>
          </span>
        }
        actions={
          lab.may('range:read') && (
            <ButtonLink href={`/l/${lab.short}/designs/compare?${compareSearch(design)}`} prefetch={false}>
              {words('compare.open')}
            </ButtonLink>
          )
        }
      />
      {!isNewest(design) && (
        <p className="caution" role="note">
          {words('designs.earlier', { number: design.revision })}{' '}
          <Link href={`/l/${lab.short}/designs/${design.id}`}>{words('designs.toNewest')}</Link>
        </p>
      )}
      {design.sentBack !== null && (
        <SentBack sentBack={design.sentBack} title={words('designs.sentBack', { name: design.sentBack.by.name })} />
      )}
    </>
  )
}

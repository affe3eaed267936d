'use client'

import type { LedgerVerdict } from '@curebook/contract/ledger'
import { Button } from '#components/button.tsx'
import { ErrorState } from '#components/error-state.tsx'
import { FormErrors } from '#components/form-errors.tsx'
import { StatusMark } from '#components/status-mark.tsx'
import { TextField } from '#components/text-field.tsx'
import { TimeText } from '#components/time-text.tsx'
import { ApiProblem } from '#lib/api-problem.ts'
import { useLaboratory } from '#lib/laboratory-provider.tsx'
import { useCheckedSubmit } from '#lib/use-checked-submit.ts'
import { useWords } from '#lib/words.ts'
import { useVerifyLedger } from './ledger.queries.ts'
import styles from './ledger.module.css'

/** Checks the whole chain, every stored value against its entry, and, if one is typed in, a head that was printed. */
export function VerifyPart() {
  const words = useWords()
  const lab = useLaboratory()
  const verify = useVerifyLedger(lab.id)
  const { errors, onSubmit } = useCheckedSubmit({
    schema: () => import('@curebook/contract/ledger').then(({ VerifyLedgerSchema }) => VerifyLedgerSchema),
    read: readPrinted,
    save: verify,
  })
  const refused = verify.error instanceof ApiProblem && verify.error.errors.length > 0
  return (
    <div className="stack" style={{ maxWidth: '48rem' }}>
      <p>{words('ledger.verifyAbout')}</p>
      <form className="stack" onSubmit={onSubmit} noValidate aria-busy={verify.isPending}>
        {(refused || verify.error === null) && <FormErrors errors={errors} />}
        <details>
          <summary className="strong">{words('ledger.printed')}</summary>
          <div className="stack" style={{ paddingBlock: 'var(--gap-3)' }}>
            <p>{words('ledger.printedAbout')}</p>
            <TextField
              name="printed.seq"
              label={words('ledger.printedNumber')}
              inputMode="numeric"
              autoComplete="off"
              error={errors['printed.seq']}
            />
            <TextField
              name="printed.hash"
              label={words('ledger.printedHash')}
              autoComplete="off"
              spellCheck={false}
              error={errors['printed.hash']}
            />
          </div>
        </details>
        <div>
          <Button type="submit" tone="main" busy={verify.isPending}>
            {verify.isPending ? words('ledger.verifying') : words('ledger.verifyAct')}
          </Button>
        </div>
      </form>
      {verify.error !== null && !refused && <ErrorState what={words('ledger.theVerdict')} error={verify.error} />}
      <div role="status">{verify.data !== undefined && <Verdict verdict={verify.data} />}</div>
    </div>
  )
}

function Verdict({ verdict }: { verdict: LedgerVerdict }) {
  const words = useWords()
  const facts = {
    entries: verdict.entries,
    rows: verdict.rowsCompared,
    heads: verdict.headsCompared,
    unsealed: verdict.unsealed,
  }
  return (
    <section className="panel stack" aria-labelledby="verdict">
      <h2 id="verdict" className="row">
        <StatusMark status={verdict.whole ? 'pass' : 'fail'}>
          {words(verdict.whole ? 'ledger.whole' : 'ledger.broken')}
        </StatusMark>
        <TimeText at={verdict.checkedAt} />
      </h2>
      {verdict.firstBreak !== null && (
        <>
          <p className="strong">{verdict.firstBreak.message}</p>
          <p>{words('ledger.brokenHelp', { number: verdict.firstBreak.seq ?? words('ledger.unsealed') })}</p>
        </>
      )}
      <p>{words('ledger.checked', facts)}</p>
      <p className={styles.hash}>
        {words('ledger.headNow', { number: verdict.head.seq })} {verdict.head.hash}
      </p>
    </section>
  )
}

function readPrinted(form: FormData) {
  const seq = String(form.get('printed.seq')).trim()
  const hash = String(form.get('printed.hash')).replace(/\s+/g, '').toLowerCase()
  return seq === '' && hash === '' ? {} : { printed: { seq: seq === '' ? NaN : Number(seq), hash } }
}

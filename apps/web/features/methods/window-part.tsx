'use client'

import type { StepDeclaration, WindowDeclaration } from '@curebook/trade/procedure/declaration'
import { windowsOf } from '@curebook/trade/procedure/windows'
import { useLaboratoryFormat } from '#lib/laboratory-format.ts'
import { useWords } from '#lib/words.ts'
import type { Parameters } from './editions.ts'
import { windowSentence } from './procedure-words.ts'
import { SourceText } from './step-part.tsx'

/** The time windows in sentences, and what being late means in each. */
export function WindowPart({
  windows,
  steps,
  parameters,
}: {
  windows: readonly WindowDeclaration[]
  steps: readonly StepDeclaration[]
  parameters: Parameters
}) {
  const words = useWords()
  const format = useLaboratoryFormat()
  return (
    <section className="stack" aria-labelledby="windows">
      <h2 id="windows">{words('methods.windows')}</h2>
      <ul className="plain-list stack">
        {windowsOf({ windows }, parameters).map((window) => (
          <li key={window.key} className="panel stack stack-tight keep">
            <h3>{window.label}</h3>
            <p>
              {windowSentence(window, steps, parameters, format, words)} {words(`methods.late.${window.late}`)}
            </p>
            {[window.earliestParameter, window.latestParameter].map(
              (key) =>
                key !== undefined && (
                  <p key={key} className="small">
                    {parameters[key]?.label}: <SourceText parameter={parameters[key]} />
                  </p>
                ),
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}

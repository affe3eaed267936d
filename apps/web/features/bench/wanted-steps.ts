import type { TestView } from '@curebook/contract/bench'
import type { StepDeclaration } from '@curebook/trade/procedure/declaration'

/** No more are offered at once; the others stand in the list of steps (our own choice, no source). */
const offered = 2

type View = Pick<TestView, 'currentStep' | 'locks' | 'readings' | 'windows'> & {
  readonly method: Pick<TestView['method'], 'steps'>
}

/**
 * Steps that ask for nothing and come next, in their order: not begun, nothing that must come before is missing, and their
 * window, where they have one, is not over. One that names nothing before it comes after all that must be done.
 */
export function wantedSteps(
  { method, currentStep, locks, readings, windows }: View,
  now: number,
): readonly StepDeclaration[] {
  const isOver = ({ key }: StepDeclaration) =>
    windows.some(({ stepKey, closesAt }) => stepKey === key && closesAt !== null && Date.parse(closesAt) < now)
  return (method.steps as readonly StepDeclaration[])
    .filter(
      (step) =>
        step.events.length === 0 &&
        (step.needs !== undefined || currentStep === null) &&
        step.readings.every(({ optional }) => optional === true) &&
        !locks.some(({ stepKey }) => stepKey === step.key) &&
        !readings.some(({ stepKey, superseded }) => stepKey === step.key && !superseded) &&
        !isOver(step),
    )
    .slice(0, offered)
}

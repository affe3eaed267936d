import { ApiProblem } from '#lib/api-problem.ts'

/**
 * The event that a refusal said stands meanwhile (null: none): what the person has been shown, and decides on when pressing
 * again. Undefined where nothing of the kind was said.
 */
export function toldMeanwhile(error: unknown): string | null | undefined {
  if (!(error instanceof ApiProblem) || error.code !== 'conflict') return undefined
  const { stored } = error.extra
  return typeof stored === 'string' || stored === null ? stored : undefined
}

/** One row taken out of a list of a form: `limits`, or `gradationBand.sieves`. */
export type RemovedRow = { readonly list: string; readonly index: number }
type Errors = Readonly<Record<string, string>>

/**
 * Errors of a form go by the place of a row. Once a row is taken out, its own are gone and those of the rows below belong one
 * place higher.
 */
export function errorsWithout(errors: Errors, { list, index }: RemovedRow): Errors {
  const prefix = `${list}.`
  return Object.fromEntries(
    Object.entries(errors).flatMap(([path, message]): [string, string][] => {
      const [place = '', ...field] = path.startsWith(prefix) ? path.slice(prefix.length).split('.') : []
      if (!/^\d+$/.test(place) || Number(place) < index) return [[path, message]]
      if (Number(place) === index) return []
      return [[[list, Number(place) - 1, ...field].join('.'), message]]
    }),
  )
}

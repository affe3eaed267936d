import type { Validation } from '@curebook/contract/validation'
import type { Replay } from '#features/bench/replay'

/** The reference cases as text: inputs, expected, obtained and version, a line each; what differs is marked. */
export function validationText({ version, node, at, rows, agreeing, differing }: Validation): string {
  const names = [...new Set(rows.map(nameOf))]
  const blocks = names.map((name) => {
    const own = rows.filter((row) => nameOf(row) === name)
    const [{ source, inputs, computation }] = own as [Row]
    const head = ['result', 'expected', 'tolerance', 'obtained', '']
    const lines = own.map(({ unit, expected, tolerance, obtained, agrees }) => [
      unit,
      expected,
      tolerance,
      obtained,
      agrees ? 'agrees' : 'DIFFERS',
    ])
    const given = inputs.map((input) => `${input.name} ${input.value}`).join('; ')
    return [
      `${name}, computation ${computation}`,
      `  source  ${source}`,
      `  inputs  ${given}`,
      ...columns([head, ...lines]).map((line) => `  ${line}`),
    ].join('\n')
  })
  const total = `${agreeing} of ${rows.length} reference results agree${differing > 0 ? `, ${differing} DIFFER` : ''}. Version ${version}, Node ${node}, ${at}.`
  return [...blocks, total].join('\n\n')
}

type Row = Validation['rows'][number]
const nameOf = ({ method, title }: Row) => `${method}: ${title}`

/** The replay of one laboratory: how much was computed again, and each difference. */
export function replayText(labId: string, { results, calculations, differences, faults }: Replay): string {
  const found = differences.length + faults.length
  return [
    `Laboratory ${labId}: ${results} stored results computed again, ${calculations} stored calculations evaluated again, ${found === 0 ? 'no difference' : `${found} DIFFER`}.`,
    ...differences.map(
      ({ label, code, key, stored, present }) => `  ${label} (${code}), ${key}: stored ${stored}, now ${present}`,
    ),
    ...faults.map(
      ({ resultId, symbols }) => `  Result ${resultId}: its calculation does not hold at ${symbols.join(', ')}`,
    ),
  ].join('\n')
}

/** Cells under one another, parted by two spaces. */
function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)))
  return rows.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd(),
  )
}

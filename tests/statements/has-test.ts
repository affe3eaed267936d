/** Whether a test that runs has this title: the first argument of `test`, `it` or of their `each`, not one that is skipped. */
export function hasTest(source: string, title: string): boolean {
  const quoted = title.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')
  const literal = `(['"\`])${quoted}\\1\\s*,`
  const direct = new RegExp(`\\b(?:test|it)\\(\\s*${literal}`)
  const each = new RegExp(`\\b(?:test|it)\\.each\\([^]*?\\)\\(\\s*${literal}`)
  return direct.test(source) || each.test(source)
}

import ts from 'typescript'

/** A number in the code beside which no source stands. */
export type UnsourcedNumber = { readonly file: string; readonly line: number; readonly digits: string }

/** Numbers that are counting and no knowledge of the trade. */
const structural = new Set(['0', '1', '2', '10', '100'])

/** What a comment or a text says where a number comes from: a designation, a year in brackets, or that there is no source. */
const namesSource =
  /\b(ISSA|ASTM|AASHTO|EN|ISO|IEC|IRC|ILAC|GUM|JCGM|NIST|UFC|TB-\d+|MP \d+|PP \d+|IEEE)\b|\b(1[89]|20)\d\d\b|common practice, no source|from memory, unverified|\bdefinitions?\b|\bexact(ly)?\b/i

/** Makers of bounds that cannot be called without naming a source. */
const boundMakers = ['published', 'remembered', 'practised']

/** Calls whose numbers are places in a text or a list, and digits kept. */
const placeCalls =
  /^(slice|at|padStart|padEnd|charAt|charCodeAt|substring|repeat|toFixed|toSignificantDigits|toDecimalPlaces|round|flat|with|pow|show|toString)$/

/**
 * Properties that name, date or show something, and bound nothing. The smallest step of an instrument is among them: what
 * is read finer is asked about and kept.
 */
const shownBy = new Set(['displayDecimals', 'computation', 'repeats', 'resolution', 'year', 'key', 'label', 'symbol'])

/** Names of the functions of these files that put what they are given beside a source. */
export function sourcedMakers(files: readonly ts.SourceFile[]): ReadonlySet<string> {
  const makers = new Set(boundMakers)
  let before = -1
  while (before !== makers.size) {
    before = makers.size
    for (const file of files)
      visit(file, (node) => {
        const made = madeBy(node)
        if (made && putsBesideSource(made.value, made.given, makers)) makers.add(made.name)
      })
  }
  return makers
}

/**
 * Folders of special functions and distributions, where a first line may speak for all numbers of a file: those are steps and
 * ends of summations, and printed tables check what comes out.
 */
const numericalFolders = /(^|\/)statistics\/(special|distributions)\//
const spokenFor = (file: ts.SourceFile) =>
  numericalFolders.test(file.fileName) &&
  /^\/\/ Numbers of this file: /.test(file.text) &&
  namesSource.test(file.text.split('\n')[0]!)

/** The numbers of a file without a source beside them. */
export function unsourcedNumbers(file: ts.SourceFile, makers: ReadonlySet<string>): readonly UnsourcedNumber[] {
  const found: UnsourcedNumber[] = []
  if (spokenFor(file)) return found
  visit(file, (node) => {
    const digits = digitsOf(node)
    if (digits === undefined || structural.has(digits) || isPlace(node) || hasSource(node, file, makers)) return
    found.push({ file: file.fileName, line: file.getLineAndCharacterOfPosition(node.getStart()).line + 1, digits })
  })
  return found
}

export function parse(fileName: string, text: string): ts.SourceFile {
  return ts.createSourceFile(fileName, text, ts.ScriptTarget.Latest, true)
}

function visit(node: ts.Node, look: (node: ts.Node) => void): void {
  look(node)
  ts.forEachChild(node, (child) => visit(child, look))
}

/** Digits of a number, written as such or as a decimal string. */
function digitsOf(node: ts.Node): string | undefined {
  if (ts.isNumericLiteral(node)) return String(Number(node.text))
  if (!ts.isStringLiteral(node) && !ts.isNoSubstitutionTemplateLiteral(node)) return undefined
  return /^[+-]?\d+(\.\d+)?(e[+-]?\d+)?$/i.test(node.text) ? node.text.replace(/^[+-]/, '') : undefined
}

/** A place in a list or a text, a type, or a property that bounds nothing. */
function isPlace(node: ts.Node): boolean {
  const { parent } = node
  if (ts.isLiteralTypeNode(parent) || ts.isElementAccessExpression(parent) || ts.isImportDeclaration(parent))
    return true
  if (ts.isPropertyAssignment(parent)) return parent.name === node || shownBy.has(parent.name.getText())
  if (!ts.isCallExpression(parent)) return false
  return placeCalls.test(nameOf(parent.expression))
}

function hasSource(node: ts.Node, file: ts.SourceFile, makers: ReadonlySet<string>): boolean {
  if (saysSource(node, file)) return true
  for (let at: ts.Node = node; at.parent && !ts.isSourceFile(at); at = at.parent) {
    if (ts.isFunctionLike(at)) return false
    if (namesItsSource(at, makers)) return true
    if (ts.isCallExpression(at) && at.arguments.some((argument) => namesItsSource(argument, makers))) return true
  }
  return false
}

/** An object with a `source`, or a call of what makes one. */
function namesItsSource(node: ts.Node, makers: ReadonlySet<string>): boolean {
  if (ts.isParenthesizedExpression(node)) return namesItsSource(node.expression, makers)
  if (ts.isCallExpression(node)) return makers.has(nameOf(node.expression))
  if (!ts.isObjectLiteralExpression(node)) return false
  return node.properties.some((property) =>
    ts.isSpreadAssignment(property) ? isSourced(property.expression) : property.name?.getText() === 'source',
  )
}

/** A text with a source that is spread into an object: a constant that holds one, or what the caller must name one in. */
function isSourced(spread: ts.Expression): boolean {
  if (!ts.isIdentifier(spread)) return false
  const text = spread.getSourceFile().getFullText()
  return new RegExp(`\\b${spread.text}\\b(: Sourced\\b|[^=\\n]*= \\{[^}]*\\bsource\\b)`).test(text)
}

/** Whether something with a source, here or further in, holds what the function was given. */
function putsBesideSource(node: ts.Node, given: ReadonlySet<string>, makers: ReadonlySet<string>): boolean {
  if (ts.isFunctionLike(node)) return false
  if (namesItsSource(node, makers) && mentions(node, given)) return true
  return ts.forEachChild(node, (child) => putsBesideSource(child, given, makers) || undefined) ?? false
}

function mentions(node: ts.Node, names: ReadonlySet<string>): boolean {
  let found = false
  visit(node, (at) => {
    if (ts.isIdentifier(at) && names.has(at.text)) found = true
  })
  return found
}

/** A comment that names the source: on the number's line, in the line above, before its statement or its function. */
function saysSource(node: ts.Node, file: ts.SourceFile): boolean {
  const text = file.getFullText()
  const commentsBefore = (at: ts.Node) =>
    (ts.getLeadingCommentRanges(text, at.getFullStart()) ?? [])
      // An empty line parts a comment from what follows.
      .filter(({ end }) => !/\n\s*\n/.test(text.slice(end, at.getStart())))
      .map(({ pos, end }) => text.slice(pos, end))
  const lines = text.split('\n')
  const line = file.getLineAndCharacterOfPosition(node.getStart()).line
  const beside = [lines[line]!, lines[line - 1] ?? ''].map((one) => /(\/\/|\/\*|^\s*\*).*$/.exec(one)?.[0] ?? '')
  if (beside.some((comment) => namesSource.test(comment))) return true
  for (let at: ts.Node = node; !ts.isSourceFile(at); at = at.parent) {
    if (commentsBefore(at).some((comment) => namesSource.test(comment))) return true
    if (ts.isFunctionLike(at) && at.parent && ts.isSourceFile(at.parent)) return false
  }
  return false
}

/** A named function, what it is given and what it gives. */
function madeBy(
  node: ts.Node,
): { readonly name: string; readonly given: ReadonlySet<string>; readonly value: ts.Node } | undefined {
  const made =
    ts.isVariableDeclaration(node) && node.initializer && ts.isArrowFunction(node.initializer) ? node.initializer : node
  if (!ts.isArrowFunction(made) && !ts.isFunctionDeclaration(made)) return undefined
  const name = ts.isVariableDeclaration(node) ? node.name : made.name
  const value = made.body && givenBy(made.body)
  if (!name || !ts.isIdentifier(name) || !value) return undefined
  const given = new Set<string>()
  for (const parameter of made.parameters)
    visit(parameter.name, (at) => {
      if (ts.isIdentifier(at)) given.add(at.text)
    })
  return { name: name.text, given, value }
}

/** What a function answers at its end. */
function givenBy(body: ts.ConciseBody): ts.Node | undefined {
  if (!ts.isBlock(body)) return body
  const last = body.statements.at(-1)
  return last && ts.isReturnStatement(last) ? last.expression : undefined
}

function nameOf(callee: ts.Expression): string {
  return ts.isPropertyAccessExpression(callee) ? callee.name.text : callee.getText()
}

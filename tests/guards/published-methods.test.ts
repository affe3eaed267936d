import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { builtInMethods } from '@curebook/trade/methods/catalogue'
import ts from 'typescript'
import { expect, test } from 'vitest'

// Each method is checked against a value from outside the project, or a file of tests/published says that there is none. A
// file names the methods it stands for: `export const methods = ['wet-track-abrasion-1h']`.
const folder = fileURLToPath(new URL('../published/', import.meta.url))
const named = readdirSync(folder)
  .filter((name) => name.endsWith('.test.ts'))
  .flatMap((name) => methodsNamedIn(readFileSync(folder + name, 'utf8')).map((method) => ({ name, method })))

/** Keys in the list that a file exports as `methods`. */
function methodsNamedIn(text: string): readonly string[] {
  const file = ts.createSourceFile('published.test.ts', text, ts.ScriptTarget.Latest, true)
  return file.statements.flatMap((statement) => {
    if (!ts.isVariableStatement(statement) || !/^export\b/.test(statement.getText())) return []
    return statement.declarationList.declarations.flatMap(({ name, initializer }) =>
      name.getText() === 'methods' && initializer && ts.isArrayLiteralExpression(initializer)
        ? initializer.elements.filter(ts.isStringLiteral).map((element) => element.text)
        : [],
    )
  })
}

test('every method is named by a file of outside values, or by one that says there is none', () => {
  const keys = builtInMethods.map(({ key }) => key)
  expect(keys.filter((key) => !named.some(({ method }) => method === key))).toEqual([])
})

test('what a file names is a method', () => {
  const keys = new Set(builtInMethods.map(({ key }) => key))
  expect(named.filter(({ method }) => !keys.has(method))).toEqual([])
})

test('a file that says there is no value says so in words', () => {
  for (const name of readdirSync(folder).filter((one) => one.startsWith('no-published-value')))
    expect(readFileSync(folder + name, 'utf8'), name).toMatch(/No published worked value is at hand/)
})

test('only an exported list of keys counts, not a word in passing', () => {
  expect(methodsNamedIn("export const methods = ['a', 'b']\n")).toEqual(['a', 'b'])
  expect(methodsNamedIn("const methods = ['a']\n// export const methods = ['c']\nconst b = 'a'\n")).toEqual([])
})

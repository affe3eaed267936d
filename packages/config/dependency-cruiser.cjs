// Who may import whom. Types count; what a workspace imports, its own package.json declares.

const not = (
  /** @type {string} */ name,
  /** @type {object} */ from,
  /** @type {object} */ to,
  /** @type {string} */ comment,
) => ({ name, severity: 'error', comment, from, to })
const test = '\\.test\\.tsx?$'
const own = (/** @type {string[]} */ ...folders) => `^packages/trade/src/(${folders.join('|')})/`
const packages = (/** @type {string[]} */ ...names) => `(^|/)node_modules/(${names.join('|')})/`

module.exports = {
  forbidden: [
    not('no-cycles', {}, { circular: true }, 'Two files that need each other are one, or miss a third.'),
    not(
      'declared-only',
      { path: '^(apps|packages)/', pathNot: [test, '^packages/(config|start)/'] },
      { dependencyTypes: ['npm-no-pkg', 'npm-unknown'] },
      'Declare it in the workspace’s own package.json.',
    ),
    not(
      'resolvable',
      { path: '^(apps|packages|tests)/' },
      { couldNotResolve: true, pathNot: ['\\.css$', '^next/', '^vitest', 'generated/', '^#', '^@curebook/'] },
      'No such file.',
    ),

    not(
      'trade-is-pure',
      { path: '^packages/trade/src/', pathNot: test },
      { pathNot: ['^packages/trade/src/', packages('decimal\\.js')] },
      'Trade knows no input, output, clock or framework.',
    ),
    not(
      'trade-quantity',
      { path: own('quantity'), pathNot: test },
      { path: '^packages/trade/src/|node_modules', pathNot: [own('quantity'), packages('decimal\\.js')] },
      'Quantity stands at the bottom.',
    ),
    not(
      'trade-statistics',
      { path: own('statistics'), pathNot: test },
      { path: '^packages/trade/src/', pathNot: own('quantity', 'statistics') },
      'Statistics stands on quantity.',
    ),
    not(
      'trade-procedure-and-custody',
      { path: own('procedure', 'custody'), pathNot: test },
      { path: '^packages/trade/src/', pathNot: own('quantity', 'procedure', 'custody') },
      'Procedure and custody stand on quantity.',
    ),
    not(
      'trade-methods',
      { path: own('methods', 'materials', 'design', 'specification'), pathNot: test },
      { path: own('reference-cases', 'custody') },
      'Methods know no case they are checked by.',
    ),

    not(
      'contract',
      { path: '^packages/contract/src/', pathNot: test },
      { pathNot: ['^packages/(contract|trade)/src/', packages('zod')] },
      'Contract is zod and trade.',
    ),
    not(
      'database-alone',
      { path: '^packages/database/src/', pathNot: test },
      { path: '^(apps|packages/(trade|contract|start))/' },
      'The database package knows no feature.',
    ),
    not(
      'generated-client',
      {
        path: '^(apps|packages|tests)/',
        pathNot: [
          '^packages/database/',
          '^apps/api/src/platform/',
          '\\.(repository|mapper)\\.ts$',
          '^apps/api/src/demo/',
          '^tests/support/',
          test,
        ],
      },
      { path: '^packages/database/src/generated/' },
      'Only repositories, mappers, platform, the demo and tests’ support see the client.',
    ),
    not(
      'api-knows-no-pages',
      { path: '^apps/api/src/' },
      { path: '^apps/web/' },
      'The pages are served, not imported.',
    ),
    not(
      'one-file-knows-next',
      { path: '^apps/api/src/', pathNot: '^apps/api/src/platform/web\\.ts$' },
      { path: packages('next') },
      'Next is imported in one file of platform.',
    ),
    not(
      'platform-below-features',
      { path: '^apps/api/src/platform/', pathNot: test },
      { path: '^apps/api/src/features/' },
      'Every feature stands on platform.',
    ),
    not(
      'features-through-services',
      { path: '^apps/api/src/features/([^/]+)/', pathNot: test },
      { path: '^apps/api/src/features/', pathNot: ['^apps/api/src/features/$1/', '\\.service\\.ts$'] },
      'Another feature is reached through its service’s type.',
    ),

    not(
      'web-imports',
      { path: '^apps/web/', pathNot: [test, '^apps/web/scripts/'] },
      { path: '^(apps/api|packages/(database|start)|packages/trade/src/(methods|materials))/' },
      'The pages learn methods from the API.',
    ),
    not(
      'web-parts-below-features',
      { path: '^apps/web/(components|lib)/', pathNot: test },
      { path: '^apps/web/(features|app)/' },
      'Components and lib know no feature.',
    ),
    not(
      'tests-stay-outside',
      { path: '^(apps|packages)/', pathNot: test },
      { path: '^tests/' },
      'The product does not import its tests.',
    ),
  ],
  options: {
    doNotFollow: { path: ['node_modules', '^packages/database/src/generated/'] },
    exclude: { path: ['(^|/)\\.next', '\\.json$', '(^|/)node_modules/@types/'] },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    combinedDependencies: false,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'types', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.cjs', '.json', '.d.ts'],
    },
    builtInModules: { override: require('node:module').builtinModules.flatMap((name) => [name, `node:${name}`]) },
  },
}

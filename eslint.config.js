import jsxA11y from 'eslint-plugin-jsx-a11y'
import reactHooks from 'eslint-plugin-react-hooks'
import tseslint from 'typescript-eslint'

const numberField =
  'A number is typed as text and read by the method’s declaration: type="number" swallows commas and units, and a wheel changes it.'
const nestedWrite = 'Write scalars only: connect, disconnect and nested writes can null lab_id or reach past it.'

// Inside `declare module` an interface is the only way to add to a library's own.
const noInterfaces = {
  selector: 'Program > TSInterfaceDeclaration, Program > ExportNamedDeclaration > TSInterfaceDeclaration',
  message: 'Say it with `type`.',
}

export default tseslint.config(
  {
    ignores: [
      '**/node_modules/**',
      '**/.next*/**',
      '**/generated/**',
      '.curebook/**',
      'tests/output/**',
      'coverage/**',
      '**/next-env.d.ts',
    ],
  },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.recommended],
    rules: {
      '@typescript-eslint/consistent-type-imports': [
        'error',
        { fixStyle: 'separate-type-imports', disallowTypeAnnotations: false },
      ],
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
    },
  },
  {
    // Where a promise forgotten is a reading lost, types are looked at as well.
    files: ['apps/api/src/**/*.ts', 'packages/database/src/**/*.ts', 'tests/**/*.ts'],
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
    },
  },
  {
    files: ['apps/api/src/**/*.ts', 'tests/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        noInterfaces,
        {
          selector:
            'Property[key.name="data"] > ObjectExpression Property[key.name=/^(connect|disconnect|connectOrCreate)$/]',
          message: nestedWrite,
        },
      ],
    },
  },
  {
    files: ['packages/trade/src/**/*.ts', 'apps/api/src/features/**/*.ts'],
    ignores: ['**/*.test.ts'],
    rules: {
      'no-restricted-properties': [
        'error',
        {
          object: 'Math',
          property: 'round',
          message: 'A result is rounded by a named rule of trade/quantity, and only to be shown.',
        },
      ],
    },
  },
  {
    files: ['apps/web/**/*.{ts,tsx}'],
    plugins: { 'jsx-a11y': jsxA11y, 'react-hooks': reactHooks },
    rules: {
      ...jsxA11y.flatConfigs.recommended.rules,
      'react-hooks/rules-of-hooks': 'error',
      'react-hooks/exhaustive-deps': 'error',
      // The bench puts the cursor where the next number goes, and says so.
      'jsx-a11y/no-autofocus': 'off',
      // A part that scrolls has to be reachable without a mouse.
      'jsx-a11y/no-noninteractive-tabindex': 'off',
      'no-restricted-syntax': [
        'error',
        noInterfaces,
        {
          selector:
            'JSXOpeningElement[name.name=/^(input|.*Input|.*Field)$/] > JSXAttribute[name.name="type"][value.value="number"]',
          message: numberField,
        },
      ],
    },
  },
)

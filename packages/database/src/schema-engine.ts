import { readFile, readdir } from 'node:fs/promises'
import { createRequire } from 'node:module'
import path from 'node:path'
import {
  bindMigrationAwareSqlAdapterFactory,
  ColumnTypeEnum,
  type SqlMigrationAwareDriverAdapterFactory,
  type SqlQuery,
  type SqlQueryable,
} from '@prisma/driver-adapter-utils'
import { PrismaPg } from '@prisma/adapter-pg'
import * as engineModule from '@prisma/schema-engine-wasm/schema_engine_bg'
import pg from 'pg'
import { schemaFolder } from './migration-files.ts'

/** A file of the schema as the engine takes it. */
export type SchemaFile = { path: string; content: string }

export async function readSchema(folder = schemaFolder): Promise<SchemaFile[]> {
  const names = (await readdir(folder)).filter((name) => name.endsWith('.prisma')).sort()
  return Promise.all(
    names.map(async (name) => ({
      path: path.join(folder, name),
      content: await readFile(path.join(folder, name), 'utf8'),
    })),
  )
}

/**
 * SQL that leads from the tables of a migrated database to the schema; empty when they agree. It sees what the schema language
 * can say: not checks, policies, triggers, grants.
 */
export async function diffToSchema(ownerUrl: string, schema: SchemaFile[]): Promise<string> {
  await loadEngine()
  const pool = new pg.Pool({ connectionString: ownerUrl, max: 2 })
  try {
    const adapter = bindMigrationAwareSqlAdapterFactory(withOneCharacter(new PrismaPg(pool)))
    const engine = await engineModule.SchemaEngine.new(
      { datamodels: schema.map(({ path: file, content }) => [file, content]) },
      () => undefined,
      adapter,
    )
    const { stdout } = (await engine.diff({
      from: { tag: 'schemaDatasource', files: schema, configDir: schemaFolder },
      to: { tag: 'schemaDatamodel', files: schema },
      script: true,
      exitCode: null,
      filters: { externalTables: ['public._prisma_migrations'], externalEnums: [] },
    })) as { stdout?: string | null }
    const sql = (stdout ?? '').trim()
    return sql.includes('empty migration') ? '' : sql
  } finally {
    await pool.end()
  }
}

let loaded = false

/** As much of WebAssembly as is used; its types belong to the browser's library. */
type Wasm = {
  Module: new (bytes: Uint8Array) => object
  Instance: new (module: object, imports: object) => { exports: Record<string, (() => void) | undefined> }
}

/** The package has no loader for Node: its .wasm file, beside the module, is compiled and bound here. */
async function loadEngine(): Promise<void> {
  if (loaded) return
  const require = createRequire(import.meta.url)
  const file = require.resolve('@prisma/schema-engine-wasm/schema_engine_bg').replace(/_bg\.js$/, '_bg.wasm')
  const { WebAssembly: wasm } = globalThis as unknown as { WebAssembly: Wasm }
  const instance = new wasm.Instance(new wasm.Module(await readFile(file)), { './schema_engine_bg.js': engineModule })
  engineModule.__wbg_set_wasm(instance.exports)
  instance.exports.__wbindgen_start?.()
  loaded = true
}

const characterType = 18
const textType = 25

/** The adapter knows no `"char"` (OID 18), which the engine reads from the catalogue: it comes as text of one character. */
function withOneCharacter(factory: PrismaPg): SqlMigrationAwareDriverAdapterFactory {
  const mend = <T extends SqlQueryable>(adapter: T): T => {
    const inner = adapter as unknown as { performIO(query: SqlQuery): Promise<{ fields: { dataTypeID: number }[] }> }
    const performIO = inner.performIO.bind(adapter)
    let characters: number[] = []
    inner.performIO = async (query) => {
      const result = await performIO(query)
      characters = result.fields.flatMap((field, index) => (field.dataTypeID === characterType ? [index] : []))
      for (const index of characters) result.fields[index]!.dataTypeID = textType
      return result
    }
    const queryRaw = adapter.queryRaw.bind(adapter)
    adapter.queryRaw = async (query) => {
      const result = await queryRaw(query)
      for (const index of characters) result.columnTypes[index] = ColumnTypeEnum.Character
      return result
    }
    return adapter
  }
  return {
    provider: 'postgres',
    adapterName: factory.adapterName,
    connect: async () => mend(await factory.connect()),
    connectToShadowDb: async () => mend(await factory.connectToShadowDb()),
  }
}

import type { MethodDeclaration } from '@curebook/trade/procedure/declaration'
import type { TestRecord } from './test-record.ts'

/** What a reading waits for, as its deviation says it. */
export function toldOf({ label, code }: TestRecord, method: MethodDeclaration, fault: string): string {
  return `${label} (${code}), ${method.name}: ${fault} What was read is kept and does not count until released.`
}

import type { InstrumentLine } from '@curebook/contract/instrument-lines'
import { personName } from '#platform/row-values'
import type { LineRow } from './instrument-lines.repository.ts'

export function toLine(row: LineRow): InstrumentLine {
  return {
    id: row.id,
    baudRate: row.baudRate as InstrumentLine['baudRate'],
    dataBits: row.dataBits as InstrumentLine['dataBits'],
    parity: row.parity as InstrumentLine['parity'],
    stopBits: row.stopBits as InstrumentLine['stopBits'],
    example: row.example,
    shown: row.shown,
    by: personName(row.by),
    at: row.at.toISOString(),
    supersedes: row.supersedesId && row.reason ? { id: row.supersedesId, reason: row.reason } : null,
    superseded: row.supersededBy !== null,
  }
}

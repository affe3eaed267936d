import type { TestRecord } from './test-record.ts'

/** Who hears of a change to a test: its own screens, its design's, the bench and the schedule. */
export function topicsOf(record: Pick<TestRecord, 'id' | 'designId'>): string[] {
  return [`test:${record.id}`, 'bench', 'schedule', ...(record.designId ? [`design:${record.designId}`] : [])]
}

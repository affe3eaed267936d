import type { TestRecord } from './test-record.ts'

/**
 * Who hears of a change to a test: its own screens, its design's, the bench and the schedule.
 * @param casts tests that changed with it
 */
export function topicsOf(record: Pick<TestRecord, 'id' | 'designId'>, casts: readonly string[] = []): string[] {
  return [
    ...[record.id, ...casts].map((id) => `test:${id}`),
    'bench',
    'schedule',
    ...(record.designId ? [`design:${record.designId}`] : []),
  ]
}

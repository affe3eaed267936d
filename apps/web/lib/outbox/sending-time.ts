/**
 * `time.sentAt` of a body says what the device's clock showed at this sending, so that the server can judge the clock;
 * it is set anew each time, and is no part of what makes two sendings the same.
 */
export function withSendingTime(body: unknown, now: Date): unknown {
  if (typeof body !== 'object' || body === null || !('time' in body)) return body
  const { time } = body
  if (typeof time !== 'object' || time === null || !('sentAt' in time)) return body
  return { ...body, time: { ...time, sentAt: now.toISOString() } }
}

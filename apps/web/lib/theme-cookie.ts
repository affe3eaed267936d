/** `system` follows the device. The choice lives in a cookie, so the first paint already has it. */
export type Theme = 'system' | 'light' | 'dark'
export const THEME_COOKIE = 'curebook-theme'

export function readTheme(value: string | undefined): Theme {
  return value === 'light' || value === 'dark' ? value : 'system'
}

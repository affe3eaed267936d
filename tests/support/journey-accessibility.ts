import { AxeBuilder } from '@axe-core/playwright'
import { readdirSync, readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'

const words = new URL('../../apps/web/messages/en/', import.meta.url)
/** Every key of the catalogues: where one shows, a screen lacks its words. */
const keys = readdirSync(words).flatMap((file) =>
  Object.keys(JSON.parse(readFileSync(new URL(file, words), 'utf8')) as object),
)

const rules = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']
export const widths = [1280, 768, 320] as const
const heights: Record<number, number> = { 320: 640, 768: 1024, 1280: 900 }
/** Colours do not depend on the width: the dark theme is looked at on the tablet, the light one on desk and phone. */
const darkAt = 768

/** Words that are missing, what axe finds on the page as it stands at every width, one of them dark, and where it can be scrolled sideways. */
export async function faultsOf(page: Page, screen: string): Promise<string[]> {
  const text = await page.locator('body').innerText()
  const faults = keys.filter((key) => text.includes(key)).map((key) => `${screen}: shows ${key} instead of words`)
  for (const width of widths) {
    await page.setViewportSize({ width, height: heights[width]! })
    const over = await page.evaluate<number>(sidewaysScript)
    if (over > 0) faults.push(`${screen}, ${width}: can be scrolled sideways by ${over} px`)
    const colorScheme = width === darkAt ? 'dark' : 'light'
    await page.emulateMedia({ colorScheme })
    for (const { id, impact, nodes } of await violationsOf(page))
      faults.push(
        `${screen}, ${width}, ${colorScheme}: ${id} (${impact}) ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
      )
  }
  return faults
}

/**
 * What axe finds on the page as it stands. Without frames its script is put into the page once, runs there for every width
 * and writes out what is amiss alone; with frames it goes into each and sums up on a page of its own, which takes five times as long.
 */
async function violationsOf(page: Page) {
  const look = (axe: AxeBuilder) => axe.withTags(rules).analyze()
  if (page.frames().length > 1) return (await look(new AxeBuilder({ page }))).violations
  const axeSource = (await page.evaluate<boolean>('window.axe !== undefined')) ? 'undefined' : undefined
  const inPlace = new AxeBuilder({ page, axeSource }).setLegacyMode().options({ resultTypes: ['violations'] })
  return (await look(inPlace)).violations
}

/** Waits until the screen shows its heading and no block of it is still being fetched. */
export async function settled(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page
    .getByRole('status')
    .filter({ hasText: /^Loading / })
    .first()
    .waitFor({ state: 'detached' })
}

/** The element with the focus: how it is called, whether its focus can be seen, and whether something lies over it. */
export function focused(page: Page): Promise<{ name: string; seen: boolean; covered: boolean }> {
  return page.evaluate(focusScript)
}

const sidewaysScript = 'document.documentElement.scrollWidth - document.documentElement.clientWidth'
const focusScript = `(() => {
  const element = document.activeElement
  const box = element.getBoundingClientRect()
  const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element)
  const top = document.elementFromPoint(box.x + box.width / 2, box.y + Math.min(box.height / 2, 20))
  const apart = top !== null && !element.contains(top) && !top.contains(element)
  if (element === document.body) return { name: 'BODY', seen: true, covered: false }
  return {
    name: (element.getAttribute('aria-label') ?? element.textContent).trim().slice(0, 60) || element.tagName,
    seen: (outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2) || boxShadow !== 'none',
    covered: apart && !top.closest('label')?.contains(element),
  }
})()`

import type { Viewport } from 'next'
import { cookies } from 'next/headers'
import { connection } from 'next/server'
import type { ReactNode } from 'react'
import { ToastProvider } from '#components/toast.tsx'
import { loadCatalogue } from '#lib/catalogue.ts'
import { BaseMessages } from '#lib/messages-provider.tsx'
import { QueryProvider } from '#lib/query-provider.tsx'
import { readTheme, THEME_COOKIE } from '#lib/theme-cookie.ts'
import { readingFont, signsFont, textFont } from './fonts.ts'
import './globals.css'

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  interactiveWidget: 'resizes-content',
}

export default async function RootLayout({ children }: { children: ReactNode }) {
  // Rendered for each request: the security policy's nonce comes with it, and no script runs without one.
  await connection()
  const theme = readTheme((await cookies()).get(THEME_COOKIE)?.value)
  return (
    <html
      lang="en"
      data-theme={theme === 'system' ? undefined : theme}
      className={`${textFont.variable} ${readingFont.variable} ${signsFont.variable}`}
    >
      <body>
        <BaseMessages locale="en" messages={await loadCatalogue('en', ['common'])}>
          <QueryProvider>
            <ToastProvider>{children}</ToastProvider>
          </QueryProvider>
        </BaseMessages>
      </body>
    </html>
  )
}

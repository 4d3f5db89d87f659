import type { Metadata, Viewport } from 'next'
import { cookies } from 'next/headers'
import type { ReactNode } from 'react'
import '@fontsource-variable/atkinson-hyperlegible-next'
import '@fontsource-variable/atkinson-hyperlegible-mono'
import './tokens.css'
import './globals.css'
import { ToastProvider } from './components/toast.tsx'
import { LanguageProvider } from './language/language-provider.tsx'
import { everywhere } from './messages/parts/everywhere.ts'
import { requestLanguage } from './messages/request-language.ts'
import { Theme, themeCookie } from './theme/theme.ts'

export async function generateMetadata(): Promise<Metadata> {
  const { shell } = await everywhere.load(await requestLanguage())
  return {
    title: { default: shell.productName, template: `%s - ${shell.productName}` },
    description: shell.productPurpose,
    robots: { index: false, follow: false },
    referrer: 'no-referrer',
  }
}
export const viewport: Viewport = { width: 'device-width', initialScale: 1 }

export default async function RootLayout({ children }: { children: ReactNode }) {
  const theme = Theme.safeParse((await cookies()).get(themeCookie)?.value)
  const language = await requestLanguage()
  return (
    <html lang={language} data-theme={theme.data} suppressHydrationWarning>
      <body>
        <LanguageProvider language={language}>
          <ToastProvider>{children}</ToastProvider>
        </LanguageProvider>
      </body>
    </html>
  )
}

import type { Metadata, Viewport } from 'next'
import { cookies } from 'next/headers'
import type { ReactNode } from 'react'
import '@fontsource-variable/atkinson-hyperlegible-next'
import '@fontsource-variable/atkinson-hyperlegible-mono'
import './tokens.css'
import './globals.css'
import { ToastProvider } from './components/toast.tsx'
import { messages } from './messages/en.ts'
import { Theme, themeCookie } from './theme/theme.ts'

export const metadata: Metadata = {
  title: { default: messages.shell.productName, template: `%s - ${messages.shell.productName}` },
  description: messages.shell.productPurpose,
  robots: { index: false, follow: false },
  referrer: 'no-referrer',
}
export const viewport: Viewport = { width: 'device-width', initialScale: 1 }

export default async function RootLayout({ children }: { children: ReactNode }) {
  const theme = Theme.safeParse((await cookies()).get(themeCookie)?.value)
  return (
    <html lang={messages.language} data-theme={theme.data} suppressHydrationWarning>
      <body>
        <ToastProvider>{children}</ToastProvider>
      </body>
    </html>
  )
}

'use client'

import { useSyncExternalStore } from 'react'
import { IconButton } from '@/app/components/icon-button.tsx'
import { ThemeIcon } from '@/app/components/icons.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import { Theme, themeCookieText } from './theme.ts'

const changed = new EventTarget()

function subscribe(notify: () => void): () => void {
  const preference = matchMedia('(prefers-color-scheme: dark)')
  changed.addEventListener('theme', notify)
  preference.addEventListener('change', notify)
  return () => {
    changed.removeEventListener('theme', notify)
    preference.removeEventListener('change', notify)
  }
}

/** The theme that the page is drawn in: the choice, else the device's preference. */
function currentTheme(): Theme {
  const chosen = Theme.safeParse(document.documentElement.dataset.theme)
  if (chosen.success) return chosen.data
  return matchMedia('(prefers-color-scheme: dark)').matches ? 'theatre' : 'clinic'
}

function chooseTheme(theme: Theme): void {
  document.documentElement.dataset.theme = theme
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is missing in two of the supported browsers
  document.cookie = themeCookieText(theme)
  changed.dispatchEvent(new Event('theme'))
}

export const useTheme = (): Theme => useSyncExternalStore(subscribe, currentTheme, () => 'clinic' as const)

export function ThemeSwitch() {
  const { shell } = useMessages()
  const theme = useTheme()
  const other = theme === 'clinic' ? 'theatre' : 'clinic'
  return (
    <IconButton label={shell.switchTheme(other)} onClick={() => chooseTheme(other)}>
      <ThemeIcon />
    </IconButton>
  )
}

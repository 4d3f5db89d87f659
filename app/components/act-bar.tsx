'use client'

import type { ReactNode } from 'react'
import styles from './act-bar.module.css'
import { Button } from './button.tsx'
import { IconButton } from './icon-button.tsx'
import { DownIcon, UpIcon } from './icons.tsx'

/** What may be done to the current row of a list, in one line. */
export const ActBar = ({ children }: { readonly children: ReactNode }) => <div className={styles.bar}>{children}</div>

interface ActButtonProps {
  readonly label: string
  /** the single key that does the same while the row has the focus */
  readonly shortcut: string
  /** the form that it opens stands open */
  readonly isOpen?: boolean
  readonly onAct: () => void
}

export function ActButton({ label, shortcut, isOpen = false, onAct }: ActButtonProps) {
  return (
    <Button tone="quiet" aria-keyshortcuts={shortcut} aria-expanded={isOpen ? true : undefined} onClick={onAct}>
      {label}
      <span className={styles.key} aria-hidden="true">
        {shortcut}
      </span>
    </Button>
  )
}

interface OrderButtonsProps {
  readonly up: string
  readonly down: string
  readonly onShift: (by: -1 | 1) => void
}

export function OrderButtons({ up, down, onShift }: OrderButtonsProps) {
  return (
    <span className={styles.order}>
      <IconButton label={up} aria-keyshortcuts="Alt+ArrowUp" onClick={() => onShift(-1)}>
        <UpIcon />
      </IconButton>
      <IconButton label={down} aria-keyshortcuts="Alt+ArrowDown" onClick={() => onShift(1)}>
        <DownIcon />
      </IconButton>
    </span>
  )
}

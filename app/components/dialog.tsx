'use client'

import { type ReactNode, useEffect, useId, useRef } from 'react'
import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './dialog.module.css'
import { IconButton } from './icon-button.tsx'
import { CloseIcon } from './icons.tsx'

interface DialogProps {
  readonly open: boolean
  /** called by Escape and the close button; the owner sets `open` to false */
  readonly onClose: () => void
  readonly title: string
  readonly children: ReactNode
  readonly wide?: boolean
}

/**
 * A modal dialog; the browser keeps the focus inside and gives it back. Content is mounted only while open; what carries
 * `data-first` has the focus at first.
 */
export function Dialog({ open, onClose, title, children, wide = false }: DialogProps) {
  const { shell } = useMessages()
  const ref = useRef<HTMLDialogElement>(null)
  const titleId = useId()
  useEffect(() => {
    if (!open) return ref.current?.close()
    ref.current?.showModal()
    // Opening gives the focus to the first control, which closes; nothing in it could take the focus before.
    ref.current?.querySelector<HTMLElement>('[data-first]')?.focus()
  }, [open])
  return (
    <dialog
      ref={ref}
      className={styles.dialog}
      data-wide={wide}
      aria-labelledby={titleId}
      onClose={() => open && onClose()}
    >
      {open && (
        <>
          <header className={styles.head}>
            <h2 className={styles.title} id={titleId}>
              {title}
            </h2>
            <IconButton label={shell.close} onClick={onClose}>
              <CloseIcon />
            </IconButton>
          </header>
          <div className={styles.body}>{children}</div>
        </>
      )}
    </dialog>
  )
}

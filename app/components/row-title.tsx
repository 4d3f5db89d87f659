import type { ReactNode } from 'react'
import type { RowProps } from './roving-rows.ts'

interface RowTitleProps {
  readonly row: RowProps
  /** the whole row in a line */
  readonly label: string
  readonly className: string | undefined
  /** for those who may act on the row: what a press does, and whether it stands open */
  readonly press?: { readonly isOpen: boolean | undefined; readonly act: () => void } | undefined
  readonly children: ReactNode
}

/** What of a row takes the focus: a button for those who can do something with it, else a place to be led to. */
export function RowTitle({ row, label, className, press, children }: RowTitleProps) {
  if (press === undefined)
    return (
      <span data-row={row['data-row']} tabIndex={-1} className={className}>
        {children}
      </span>
    )
  return (
    <button
      type="button"
      {...row}
      className={className}
      aria-label={label}
      aria-expanded={press.isOpen}
      onClick={press.act}
    >
      {children}
    </button>
  )
}

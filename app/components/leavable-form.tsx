import type { FormEvent, KeyboardEvent, ReactNode } from 'react'

interface LeavableFormProps {
  readonly className: string | undefined
  readonly onSubmit: (event: FormEvent<HTMLFormElement>) => void
  readonly onLeave: () => void
  readonly children: ReactNode
}

/** A form inside of a row or list that Escape leaves. */
export function LeavableForm({ className, onSubmit, onLeave, children }: LeavableFormProps) {
  return (
    <form className={className} onSubmit={onSubmit} onKeyDown={leaveOnEscape(onLeave)} noValidate>
      {children}
    </form>
  )
}

/** What surrounds a part that Escape leaves does not hear that key. */
export const leaveOnEscape = (onLeave: () => void) => (event: KeyboardEvent) => {
  if (event.key !== 'Escape') return
  event.stopPropagation()
  onLeave()
}

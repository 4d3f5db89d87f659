'use client'

import { type ComponentProps, useEffect, useRef, useState } from 'react'

/** A pause in typing after which what was typed is written. */
const pauseMs = 600

interface LiveTextProps extends Omit<ComponentProps<'textarea'>, 'value' | 'onChange' | 'onBlur'> {
  readonly value: string
  readonly onWrite: (text: string) => void
}

/** Text that is written while typing pauses and when it is left; others' changes show while nobody types here. */
export function LiveText({ value, onWrite, ...rest }: LiveTextProps) {
  const [draft, setDraft] = useState<string>()
  const write = useRef(onWrite)
  write.current = onWrite
  const unwritten = useRef<string>(undefined)
  useEffect(() => {
    unwritten.current = draft
    if (draft === undefined) return
    const timer = setTimeout(() => write.current(draft), pauseMs)
    return () => clearTimeout(timer)
  }, [draft])
  useEffect(
    () => () => {
      if (unwritten.current !== undefined) write.current(unwritten.current)
    },
    [],
  )
  const leave = () => {
    if (draft !== undefined) onWrite(draft)
    setDraft(undefined)
  }
  return <textarea {...rest} value={draft ?? value} onChange={(event) => setDraft(event.target.value)} onBlur={leave} />
}

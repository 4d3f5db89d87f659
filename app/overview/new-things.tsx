'use client'

import { useState } from 'react'
import { askApi } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-overview.ts'
import { CaseSummary, Programme } from '@/lib/interchange/api.ts'
import { LabelForm } from './label-form.tsx'

export function NewProgrammeButton({ onCreated }: { onCreated: () => void }) {
  const { overview } = useMessages()
  const [open, setOpen] = useState(false)
  return (
    <>
      <Button tone="accent" onClick={() => setOpen(true)}>
        {overview.newProgramme}
      </Button>
      <LabelForm
        open={open}
        onClose={() => setOpen(false)}
        title={overview.newProgramme}
        label={overview.programmeLabel}
        hint={overview.programmeHint}
        create={async (label) => {
          await askApi('/api/programmes', Programme, { method: 'POST', body: { label } })
          onCreated()
        }}
      />
    </>
  )
}

interface NewCaseButtonProps {
  readonly programme: string
  /** left out where the page hears of it by itself */
  readonly onCreated?: (() => void) | undefined
}

export function NewCaseButton({ programme, onCreated }: NewCaseButtonProps) {
  const { overview } = useMessages()
  const [open, setOpen] = useState(false)
  return (
    <>
      <Button onClick={() => setOpen(true)}>{overview.newCase}</Button>
      <LabelForm
        open={open}
        onClose={() => setOpen(false)}
        title={overview.newCase}
        label={overview.caseLabel}
        hint={overview.caseHint}
        create={async (label) => {
          await askApi(`/api/programmes/${programme}/cases`, CaseSummary, { method: 'POST', body: { label } })
          onCreated?.()
        }}
      />
    </>
  )
}

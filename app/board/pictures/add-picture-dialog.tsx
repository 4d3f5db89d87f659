'use client'

import { type FormEvent, useState } from 'react'
import { sentenceOfFault } from '@/app/api-client.ts'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { Field } from '@/app/components/field.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useSay } from '@/app/components/toast.tsx'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { sendFile } from '@/app/send-file.ts'
import { type RecordId, textLimits } from '@/lib/board/identity.ts'
import { byRank } from '@/lib/board/reading.ts'
import { pictureLimits } from '@/lib/board/records/picture.ts'
import { AddedPicture, pictureHeaders } from '@/lib/interchange/pictures/new-picture.ts'
import { useBoard, useBoardStatus, useTable } from '../board-context.tsx'
import { usePostGuard } from '../post-guard.tsx'
import styles from './add-picture-dialog.module.css'
import { ChoosePicture } from './choose-picture.tsx'
import { type PictureDraft, usePictureDraft } from './use-picture-draft.ts'

interface AddPictureDialogProps {
  readonly open: boolean
  /** the step that it belongs to at first */
  readonly step: RecordId | undefined
  readonly onClose: () => void
}

/** A photograph is chosen, looked at, given its words, and sent. What is not sent stays for the next time. */
export function AddPictureDialog({ open, step, onClose }: AddPictureDialogProps) {
  const { pictures } = useMessages()
  const draft = usePictureDraft()
  return (
    <Dialog open={open} onClose={onClose} title={pictures.addTitle}>
      <AddPicture draft={draft} firstStep={step} onDone={onClose} />
    </Dialog>
  )
}

interface AddPictureProps {
  readonly draft: PictureDraft
  readonly firstStep: RecordId | undefined
  readonly onDone: () => void
}

function AddPicture({ draft, firstStep, onDone }: AddPictureProps) {
  const { pictures } = useMessages()
  const count = useTable('pictures').length
  const isLive = useBoardStatus().link.state === 'live'
  const [step, setStep] = useState(firstStep ?? '')
  const { send, isSending } = useSending(draft, step, onDone)
  if (count >= pictureLimits.ofCase) return <p role="alert">{pictures.tooMany(pictureLimits.ofCase)}</p>
  return (
    <form className={styles.form} onSubmit={send} noValidate>
      <p className={styles.caution}>{pictures.caution}</p>
      <ChoosePicture draft={draft} />
      {draft.picture !== undefined && (
        <>
          <LimitedText
            label={pictures.caption}
            hint={pictures.captionHint}
            limit={textLimits.short}
            value={draft.caption}
            onChange={draft.write}
          />
          <StepField step={step} onChoose={setStep} />
        </>
      )}
      {!isLive && <p role="status">{pictures.offline}</p>}
      <div>
        <Button type="submit" tone="accent" disabled={!isLive || isSending || draft.picture === undefined}>
          {isSending ? pictures.sending : pictures.send}
        </Button>
      </div>
    </form>
  )
}

function StepField({ step, onChoose }: { readonly step: string; readonly onChoose: (step: string) => void }) {
  const { pictures } = useMessages()
  const steps = useTable('steps')
  if (steps.length === 0) return null
  return (
    <Field label={pictures.step}>
      {(control) => (
        <select {...control} value={step} onChange={(event) => onChoose(event.target.value)}>
          <option value="">{pictures.noStep}</option>
          {steps.toSorted(byRank).map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

function useSending(draft: PictureDraft, step: string, onDone: () => void) {
  const { pictures } = useMessages()
  const { caseId } = useBoard()
  const beforePosting = usePostGuard()
  const say = useSay()
  const [isSending, setSending] = useState(false)
  const post = async (blob: Blob, caption: string) => {
    setSending(true)
    draft.say(undefined)
    const headers = {
      'content-type': blob.type,
      [pictureHeaders.caption]: encodeURIComponent(caption),
      ...(step === '' ? {} : { [pictureHeaders.step]: step }),
    }
    try {
      await sendFile(`/api/cases/${encodeURIComponent(caseId)}/pictures`, blob, headers, AddedPicture)
      draft.clear()
      say(pictures.sent)
      onDone()
    } catch (error) {
      draft.say(sentenceOfFault(error))
    } finally {
      setSending(false)
    }
  }
  const send = (event: FormEvent) => {
    event.preventDefault()
    const { picture } = draft
    const caption = draft.caption.trim()
    if (picture === undefined) return draft.say(pictures.fault.none)
    // The field says so itself.
    if (caption.length > textLimits.short) return
    beforePosting(caption, () => void post(picture.blob, caption))
  }
  return { send, isSending }
}

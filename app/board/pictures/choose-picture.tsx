'use client'

import { type ChangeEvent, type DragEvent, useEffect, useRef } from 'react'
import { Button } from '@/app/components/button.tsx'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { PictureType } from '@/lib/board/records/picture.ts'
import styles from './add-picture-dialog.module.css'
import type { PictureDraft } from './use-picture-draft.ts'

/** With these types named, a phone hands over what it keeps in another form as JPEG. */
const accepted = PictureType.options.join(',')

/** A picture from the camera, a file, the clipboard, or dropped here; once there is one, what will be sent. */
export function ChoosePicture({ draft }: { readonly draft: PictureDraft }) {
  const { pictures } = useMessages()
  const { picture, isPreparing, fault } = draft
  usePasted(draft)
  const onDrop = (event: DragEvent) => {
    event.preventDefault()
    draft.take([...event.dataTransfer.files])
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a third way beside the two fields inside
    <div className={styles.place} onDragOver={(event) => event.preventDefault()} onDrop={onDrop}>
      {picture === undefined ? (
        <Sources draft={draft} />
      ) : (
        <figure className={styles.chosen}>
          <img className={styles.preview} src={picture.address} alt={pictures.preview} />
          <figcaption className={styles.facts}>
            {pictures.ready(picture.width, picture.height, Math.ceil(picture.blob.size / 1024))}
            <Button tone="quiet" onClick={draft.clear}>
              {pictures.other}
            </Button>
          </figcaption>
        </figure>
      )}
      {isPreparing && <p role="status">{pictures.preparing}</p>}
      {picture !== undefined && fault !== undefined && (
        <p className={styles.fault} role="alert">
          {fault}
        </p>
      )}
    </div>
  )
}

function Sources({ draft }: { readonly draft: PictureDraft }) {
  const { pictures } = useMessages()
  const take = ({ currentTarget }: ChangeEvent<HTMLInputElement>) => {
    draft.take([...(currentTarget.files ?? [])])
    // The same file may be chosen again, once it is another.
    currentTarget.value = ''
  }
  return (
    <>
      <div className={styles.camera}>
        <Field label={pictures.take}>
          {(control) => <input {...control} type="file" accept={accepted} capture="environment" onChange={take} />}
        </Field>
      </div>
      <Field label={pictures.choose} hint={pictures.orElse} error={draft.fault}>
        {(control) => <input {...control} data-first type="file" accept={accepted} onChange={take} />}
      </Field>
    </>
  )
}

/** A picture in the clipboard; words go where the cursor is. */
function usePasted(draft: PictureDraft): void {
  const latest = useRef(draft)
  latest.current = draft
  useEffect(() => {
    const onPaste = (event: ClipboardEvent) => {
      const files = [...(event.clipboardData?.files ?? [])]
      if (files.length === 0) return
      event.preventDefault()
      latest.current.take(files)
    }
    document.addEventListener('paste', onPaste)
    return () => document.removeEventListener('paste', onPaste)
  }, [])
}

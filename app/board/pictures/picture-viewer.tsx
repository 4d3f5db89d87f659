'use client'

import { type FormEvent, type KeyboardEvent, useState } from 'react'
import { Byline } from '@/app/board/byline.tsx'
import { Button } from '@/app/components/button.tsx'
import { Dialog } from '@/app/components/dialog.tsx'
import { IconButton } from '@/app/components/icon-button.tsx'
import { ScreenIcon } from '@/app/components/icons.tsx'
import { LimitedText } from '@/app/components/limited-text.tsx'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { clockOf } from '@/app/messages/moments.ts'
import { changeRecord } from '@/lib/board/edits/writing.ts'
import { type RecordId, textLimits } from '@/lib/board/identity.ts'
import type { Picture } from '@/lib/board/records/picture.ts'
import { useBoard, useMay, usePerson, useRecord } from '../board-context.tsx'
import { usePostGuard } from '../post-guard.tsx'
import { isPutOnScreenKey, usePutOnScreen } from '../put-on-screen.ts'
import { PictureImage } from './picture-image.tsx'
import styles from './picture-viewer.module.css'
import { usePictures } from './use-pictures.ts'

interface PictureViewerProps {
  readonly open: boolean
  readonly id: RecordId
  readonly onMove: (id: RecordId) => void
  readonly onClose: () => void
}

/** One photograph large, with its words and what can be done with it; the arrow keys go through all of the case. */
export function PictureViewer({ open, id, onMove, onClose }: PictureViewerProps) {
  const { pictures: words } = useMessages()
  const all = usePictures()
  const place = all.findIndex((picture) => picture.id === id)
  const picture = all[place]
  return (
    <Dialog
      open={open && picture !== undefined}
      onClose={onClose}
      wide
      title={place < 0 ? '' : words.position(place + 1, all.length)}
    >
      {picture !== undefined && (
        <Viewed picture={picture} before={all[place - 1]?.id} after={all[place + 1]?.id} onMove={onMove} />
      )}
    </Dialog>
  )
}

interface ViewedProps {
  readonly picture: Picture
  readonly before: RecordId | undefined
  readonly after: RecordId | undefined
  readonly onMove: (id: RecordId) => void
}

function Viewed({ picture, before, after, onMove }: ViewedProps) {
  const { pictures: words } = useMessages()
  const put = usePutOnScreen()
  const author = usePerson(picture.author)
  const step = useRecord('steps', picture.step ?? '')
  const show = put && (() => put({ kind: 'picture', id: picture.id }))
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.target instanceof HTMLTextAreaElement) return
    const to = { ArrowLeft: before, ArrowRight: after }[event.key]
    const act = to === undefined ? (isPutOnScreenKey(event) ? show : undefined) : () => onMove(to)
    if (act === undefined) return
    event.preventDefault()
    act()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys do what the buttons inside do
    <div className={styles.viewed} tabIndex={-1} data-first onKeyDown={onKeyDown}>
      <PictureImage
        key={picture.id}
        picture={picture}
        alt={picture.caption === '' ? words.unnamed(clockOf(picture.at)) : picture.caption}
      />
      <Caption key={`caption ${picture.id}`} picture={picture} />
      {step !== undefined && (
        <p className={styles.step} dir="auto">
          {step.title}
        </p>
      )}
      <Byline person={author} at={picture.at} />
      <div className={styles.acts}>
        <Move label={words.previous} sign="←" to={before} onMove={onMove} />
        <Move label={words.next} sign="→" to={after} onMove={onMove} />
        {show !== undefined && (
          <Button tone="quiet" aria-keyshortcuts="s" onClick={show}>
            <ScreenIcon /> {words.putOnScreen}
          </Button>
        )}
      </div>
    </div>
  )
}

interface MoveProps {
  readonly label: string
  readonly sign: string
  readonly to: RecordId | undefined
  readonly onMove: (id: RecordId) => void
}

const Move = ({ label, sign, to, onMove }: MoveProps) => (
  <IconButton label={label} disabled={to === undefined} onClick={() => to !== undefined && onMove(to)}>
    <span aria-hidden="true">{sign}</span>
  </IconButton>
)

function Caption({ picture }: { readonly picture: Picture }) {
  const { pictures: words } = useMessages()
  const { record } = useBoard()
  const may = useMay()
  const beforePosting = usePostGuard()
  const [written, setWritten] = useState<string>()
  if (written === undefined)
    return (
      <div className={styles.words}>
        {picture.caption !== '' && (
          <p className={styles.caption} dir="auto">
            {picture.caption}
          </p>
        )}
        {may.mayChange('pictures', 'caption', picture) && (
          <Button tone="quiet" onClick={() => setWritten(picture.caption)}>
            {words.changeCaption}
          </Button>
        )}
      </div>
    )
  const save = (event: FormEvent) => {
    event.preventDefault()
    const caption = written.trim()
    if (caption.length > textLimits.short) return
    beforePosting(caption, () => {
      changeRecord(record, 'pictures', picture.id, { caption })
      setWritten(undefined)
    })
  }
  return (
    <form className={styles.words} onSubmit={save} noValidate>
      <LimitedText
        label={words.caption}
        limit={textLimits.short}
        sendKey="Enter"
        value={written}
        onChange={setWritten}
      />
      <Button type="submit">{words.saveCaption}</Button>
    </form>
  )
}

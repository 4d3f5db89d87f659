'use client'

import { useMemo } from 'react'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { clockOf } from '@/app/messages/moments.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Picture } from '@/lib/board/records/picture.ts'
import { useTable } from '../board-context.tsx'
import { usePictureDesk } from './picture-desk.tsx'
import { PictureImage } from './picture-image.tsx'
import styles from './thumbnails.module.css'
import { byTime } from './use-pictures.ts'

/** The photographs of a step, and where somebody works on it the way to add one. */
export function StepPictures({ step, isOpen }: { readonly step: RecordId; readonly isOpen: boolean }) {
  const { pictures: words } = useMessages()
  const { add } = usePictureDesk()
  const all = useTable('pictures')
  const own = useMemo(() => all.filter((picture) => picture.step === step).sort(byTime), [all, step])
  const mayAdd = isOpen && add !== undefined
  if (own.length === 0 && !mayAdd) return null
  return (
    <div className={styles.ofStep}>
      <Thumbnails pictures={own} label={words.title} />
      {mayAdd && (
        <Button tone="quiet" onClick={() => add(step)}>
          {words.add}
        </Button>
      )}
    </div>
  )
}

/** Photographs that belong to no step, or to one that was taken away. */
export function LoosePictures() {
  const { pictures: words } = useMessages()
  const { add } = usePictureDesk()
  const all = useTable('pictures')
  const steps = useTable('steps')
  const loose = useMemo(() => {
    const known = new Set(steps.map(({ id }) => id))
    return all.filter(({ step }) => step === undefined || !known.has(step)).sort(byTime)
  }, [all, steps])
  if (loose.length === 0 && add === undefined) return null
  return (
    <section className={styles.loose} aria-label={words.looseTitle}>
      {loose.length > 0 && <h3 className={styles.title}>{words.looseTitle}</h3>}
      <Thumbnails pictures={loose} label={words.looseTitle} />
      {add !== undefined && (
        <div>
          <Button onClick={() => add()}>{words.add}</Button>
        </div>
      )}
    </section>
  )
}

function Thumbnails({ pictures, label }: { readonly pictures: readonly Picture[]; readonly label: string }) {
  if (pictures.length === 0) return null
  return (
    <ul className={styles.thumbnails} aria-label={label}>
      {pictures.map((picture) => (
        <li key={picture.id}>
          <Thumbnail picture={picture} />
        </li>
      ))}
    </ul>
  )
}

/** A small picture that opens large. */
export function Thumbnail({ picture }: { readonly picture: Picture }) {
  const { pictures: words } = useMessages()
  const { view } = usePictureDesk()
  const name = picture.caption === '' ? words.unnamed(clockOf(picture.at)) : picture.caption
  return (
    <button type="button" className={styles.thumbnail} title={name} onClick={() => view(picture.id)}>
      <PictureImage picture={picture} alt={name} isSmall />
    </button>
  )
}

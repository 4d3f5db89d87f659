'use client'

import { useBoard } from '@/app/board/board-context.tsx'
import { pictureAddress } from '@/app/board/pictures/picture-address.ts'
import { useMissingImage } from '@/app/board/pictures/use-missing-image.ts'
import { useMessages } from '@/app/messages/for-screens.ts'
import type { Picture } from '@/lib/board/records/picture.ts'
import styles from './picture-view.module.css'

/** A photograph as large as the surface lets it be, whole, with its caption below; no frame and no ground of its own. */
export function PictureView({ picture }: { readonly picture: Picture }) {
  const { screen } = useMessages().screens
  const { caseId } = useBoard()
  const { isMissing, onError } = useMissingImage()
  return (
    <figure className={styles.figure}>
      {isMissing ? (
        <p className={styles.missing}>{screen.pictureMissing}</p>
      ) : (
        <img
          className={styles.picture}
          src={pictureAddress(caseId, picture.id)}
          width={picture.width}
          height={picture.height}
          alt={picture.caption === '' ? screen.picture : picture.caption}
          onError={onError}
        />
      )}
      {picture.caption !== '' && (
        <figcaption className={styles.caption} dir="auto">
          {picture.caption}
        </figcaption>
      )}
    </figure>
  )
}

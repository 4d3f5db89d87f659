'use client'

import { useMessages } from '@/app/messages/for-pictures.ts'
import type { Picture } from '@/lib/board/records/picture.ts'
import { useBoard } from '../board-context.tsx'
import { pictureAddress } from './picture-address.ts'
import styles from './picture-image.module.css'
import { useMissingImage } from './use-missing-image.ts'

interface PictureImageProps {
  readonly picture: Picture
  readonly alt: string
  readonly isSmall?: boolean
}

/** The picture itself; where it cannot be had it says so, and asks again when the link is back. */
export function PictureImage({ picture, alt, isSmall = false }: PictureImageProps) {
  const { pictures } = useMessages()
  const { caseId } = useBoard()
  const { isMissing, onError } = useMissingImage()
  if (isMissing)
    return (
      <span className={styles.missing} data-small={isSmall} role="img" aria-label={`${alt}. ${pictures.missing}`}>
        {isSmall ? alt : pictures.missing}
      </span>
    )
  return (
    <img
      className={styles.picture}
      data-small={isSmall}
      src={pictureAddress(caseId, picture.id)}
      width={picture.width}
      height={picture.height}
      alt={alt}
      loading="lazy"
      onError={onError}
    />
  )
}

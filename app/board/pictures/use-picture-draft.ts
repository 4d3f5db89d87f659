'use client'

import { useEffect, useState } from 'react'
import { useMessages } from '@/app/messages/for-pictures.ts'
import { mostFileBytes, type PictureFileFault, type PreparedPicture, preparePicture } from './prepare-picture.ts'

const megabyte = 1024 * 1024

/** A picture on its way to the board: chosen, made small, and kept until it is sent. */
export interface PictureDraft {
  readonly picture: (PreparedPicture & { readonly address: string }) | undefined
  readonly isPreparing: boolean
  /** what is wrong with what was chosen, in words */
  readonly fault: string | undefined
  readonly caption: string
  write(caption: string): void
  take(files: readonly File[]): void
  say(fault: string | undefined): void
  clear(): void
}

export function usePictureDraft(): PictureDraft {
  const { pictures } = useMessages()
  const [picture, setPicture] = useState<PictureDraft['picture']>()
  const [isPreparing, setPreparing] = useState(false)
  const [fault, setFault] = useState<string>()
  const [caption, setCaption] = useState('')
  const address = picture?.address
  useEffect(() => {
    if (address !== undefined) return () => URL.revokeObjectURL(address)
  }, [address])

  const sentence = (code: PictureFileFault, { size }: File): string =>
    code === 'too-large'
      ? pictures.fault['too-large'](Math.round(size / megabyte), mostFileBytes / megabyte)
      : pictures.fault[code]
  const take = async ([file, ...others]: readonly File[]) => {
    if (file === undefined) return
    setFault(undefined)
    setPreparing(true)
    const prepared = await preparePicture(file, file.name).catch((): PictureFileFault => 'broken')
    setPreparing(false)
    setPicture(typeof prepared === 'string' ? undefined : { ...prepared, address: URL.createObjectURL(prepared.blob) })
    if (typeof prepared === 'string') setFault(sentence(prepared, file))
    else if (others.length > 0) setFault(pictures.fault.several)
  }
  return {
    picture,
    isPreparing,
    fault,
    caption,
    write: setCaption,
    take: (files) => void take(files),
    say: setFault,
    clear: () => {
      setPicture(undefined)
      setFault(undefined)
      setCaption('')
    },
  }
}

'use client'

import { createContext, type ReactNode, useContext, useMemo, useState } from 'react'
import type { RecordId } from '@/lib/board/identity.ts'
import { useMay, useRecord } from '../board-context.tsx'
import { AddPictureDialog, PictureViewer } from '../later-parts.ts'

/** What can be done about photographs from anywhere below: each opens a dialog. */
export interface PictureDesk {
  /** undefined for those who may not */
  readonly add: ((step?: RecordId) => void) | undefined
  readonly view: (id: RecordId) => void
}

const PictureDeskContext = createContext<PictureDesk | undefined>(undefined)

/** @throws TypeError outside a PictureDeskProvider */
export function usePictureDesk(): PictureDesk {
  const desk = useContext(PictureDeskContext)
  if (desk === undefined) throw new TypeError('usePictureDesk needs a PictureDeskProvider above it')
  return desk
}

/** The dialogs of photographs, one of each, so that a picture that is not sent yet outlives the closing of its form. */
export function PictureDeskProvider({ children }: { readonly children: ReactNode }) {
  const may = useMay()
  const [adding, setAdding] = useState<{ readonly step: RecordId | undefined }>()
  const [viewed, setViewed] = useState<RecordId>()
  // One that is withdrawn while somebody looks at it goes from before their eyes.
  const isThere = useRecord('pictures', viewed ?? '') !== undefined
  const mayAdd = may.mayCreate('pictures')
  const desk = useMemo<PictureDesk>(
    () => ({ add: mayAdd ? (step) => setAdding({ step }) : undefined, view: setViewed }),
    [mayAdd],
  )
  return (
    <PictureDeskContext value={desk}>
      {children}
      <AddPictureDialog open={adding !== undefined} step={adding?.step} onClose={() => setAdding(undefined)} />
      <PictureViewer
        open={viewed !== undefined && isThere}
        id={viewed ?? ''}
        onMove={setViewed}
        onClose={() => setViewed(undefined)}
      />
    </PictureDeskContext>
  )
}

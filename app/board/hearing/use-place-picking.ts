import { useState } from 'react'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import type { ChartPlace } from '@/lib/board/records/annotation.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import { placeBetween } from './chart-places.ts'

interface PlacePicking {
  /** what letting go now would pick */
  readonly preview: ChartPlace | undefined
  readonly onPointing: (pointing: ChartPointing) => void
}

/** Picks a place or a band of one ear with one press on the chart. */
export function usePlacePicking(ear: Ear, onPlace: (place: ChartPlace) => void): PlacePicking {
  const [press, setPress] = useState<ChartPointing>()
  const [preview, setPreview] = useState<ChartPlace>()
  const onPointing = (pointing: ChartPointing) => {
    if (pointing.phase === 'press') setPress(pointing)
    if (pointing.phase === 'release' && press !== undefined) onPlace(placeBetween(ear, press, pointing))
    if (pointing.phase === 'release' || pointing.phase === 'leave') {
      setPress(undefined)
      setPreview(undefined)
    } else setPreview(placeBetween(ear, pointing.phase === 'press' ? pointing : (press ?? pointing), pointing))
  }
  return { preview, onPointing }
}

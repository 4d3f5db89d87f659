import { useState } from 'react'
import type { ChartPointing } from '@/app/audiogram/pointing.ts'
import type { RecordId } from '@/lib/board/identity.ts'
import type { Annotation, ChartPlace } from '@/lib/board/records/annotation.ts'
import { pinAt } from './chart-places.ts'

interface NoteDrag {
  /** where the pin is while it is dragged */
  readonly dragged: { readonly id: RecordId; readonly place: ChartPlace } | undefined
  readonly onPointing: (pointing: ChartPointing) => void
}

interface NoteDragInput {
  readonly annotations: readonly Annotation[]
  readonly mayMove: (annotation: Annotation) => boolean
  readonly onSelect: (id: RecordId) => void
  readonly onMove: (id: RecordId, place: ChartPlace) => void
}

/** A press on a flag or bracket selects it; dragging a flag moves it, for those who may. */
export function useNoteDrag({ annotations, mayMove, onSelect, onMove }: NoteDragInput): NoteDrag {
  const [held, setHeld] = useState<{ annotation: Annotation; place: ChartPlace; press: ChartPointing }>()
  const onPointing = (pointing: ChartPointing) => {
    if (pointing.phase === 'press') {
      const annotation = annotations.find(({ id }) => id === pointing.note)
      if (annotation === undefined) return
      onSelect(annotation.id)
      if (annotation.place.kind === 'pin' && mayMove(annotation))
        setHeld({ annotation, place: annotation.place, press: pointing })
    } else if (held !== undefined && pointing.phase === 'move') {
      setHeld({ ...held, place: shifted(held.annotation.place, held.press, pointing) })
    } else if (held !== undefined) {
      if (pointing.phase === 'release') onMove(held.annotation.id, held.place)
      setHeld(undefined)
    }
  }
  return { dragged: held && { id: held.annotation.id, place: held.place }, onPointing }
}

/** The flag is taken at its number, beside its place: the place moves by as much as the pointer does. */
function shifted(place: ChartPlace, from: ChartPointing, to: ChartPointing): ChartPlace {
  if (place.kind !== 'pin') return place
  return pinAt(place.ear, { hz: (place.frequency * to.hz) / from.hz, dbHl: place.level + to.dbHl - from.dbHl })
}

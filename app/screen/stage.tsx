'use client'

import type { CSSProperties, ReactNode } from 'react'
import { useDisplayAwake, useViewportSize } from './clock.ts'
import styles from './stage.module.css'

export interface StageSurface {
  readonly width: number
  readonly height: number
}

/** Full HD: what a room's projector and a video mixer take. */
export const wideSurface: StageSurface = { width: 1920, height: 1080 }
/** The same stood on end, for a display or telephone held upright. */
export const tallSurface: StageSurface = { width: 1080, height: 1920 }

interface StageProps {
  readonly surface: StageSurface
  readonly theme?: 'theatre' | undefined
  /** `key`: one plain colour that a video mixer takes out */
  readonly ground?: 'plain' | 'key'
  readonly children: ReactNode
}

/**
 * A surface of fixed size, enlarged or reduced as a whole to fit the window, so that what was readable at the desk is
 * laid out in the same way in the room. Nothing on it takes input: no pointer, no scrolling.
 */
export function Stage({ surface, theme, ground = 'plain', children }: StageProps) {
  const window = useViewportSize()
  useDisplayAwake()
  const scale = Math.min(window.width / surface.width, window.height / surface.height)
  const size = {
    '--surface-width': surface.width,
    '--surface-height': surface.height,
    '--surface-scale': scale,
  } as CSSProperties
  return (
    <main className={styles.room} data-theme={theme} data-ground={ground} style={size}>
      <div className={styles.surface}>{children}</div>
    </main>
  )
}

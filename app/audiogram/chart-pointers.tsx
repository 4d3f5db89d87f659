import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './chart-pointers.module.css'
import { type ChartFrame, dbHlAt, hzAt, xOf, yOf } from './geometry.ts'
import type { SharedPointer } from './notes.ts'

/** Other people's pointers with their names; they never take clicks. */
export function SharedPointers({ pointers, frame }: { pointers: readonly SharedPointer[]; frame: ChartFrame }) {
  const { audiogram } = useMessages()
  const { textSize } = frame
  return pointers
    .filter((pointer) => isInside(pointer, frame))
    .map((pointer) => {
      const x = xOf(frame, pointer.frequencyHz)
      const towardsLeft = x > frame.plot.left + frame.plot.width * 0.7
      const label = `${pointer.name} (${audiogram.earLetters[pointer.ear]})`
      return (
        <g
          key={pointer.id}
          className={styles.pointer}
          data-pointer={pointer.id}
          transform={`translate(${x} ${yOf(frame, pointer.levelDbHl)})`}
        >
          <path
            className={styles.arrow}
            d={`M0 0L${textSize * 0.35} ${textSize * 1.15}L${textSize * 0.85} ${textSize * 0.7}Z`}
          />
          <text
            className={styles.name}
            x={textSize * (towardsLeft ? -0.3 : 1)}
            y={textSize * 1.7}
            fontSize={textSize * 0.9}
            textAnchor={towardsLeft ? 'end' : 'start'}
          >
            {label}
          </text>
        </g>
      )
    })
}

function isInside({ frequencyHz, levelDbHl }: SharedPointer, frame: ChartFrame): boolean {
  const { plot } = frame
  const [lowHz, highHz] = [hzAt(frame, plot.left), hzAt(frame, plot.left + plot.width)]
  const [top, bottom] = [dbHlAt(frame, plot.top), dbHlAt(frame, plot.top + plot.height)]
  return frequencyHz >= lowHz && frequencyHz <= highHz && levelDbHl >= top && levelDbHl <= bottom
}

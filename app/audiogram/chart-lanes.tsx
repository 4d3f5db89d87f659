import { useMessages } from '@/app/messages/use-messages.ts'
import styles from './chart-lanes.module.css'
import { type ChartFrame, xOf } from './geometry.ts'
import type { CouldNotTestLane } from './lanes.ts'

/** Height of one lane in text heights. */
const laneEm = 1.35
/** Space between the plot and the first lane in text heights: arrows of signs at the lowest level reach into it. */
const gapEm = 0.9

export const lanesHeight = (lanes: number, textSize: number): number =>
  lanes === 0 ? 0 : (gapEm + lanes * laneEm) * textSize

/** Upper edge of a lane under the plot. */
export const laneTop = (frame: ChartFrame, lane: number): number =>
  frame.plot.top + frame.plot.height + (gapEm + lane * laneEm) * frame.textSize

/** "CNT" under every frequency that could not be tested. */
export function CouldNotTestLanes({ lanes, frame }: { lanes: readonly CouldNotTestLane[]; frame: ChartFrame }) {
  const { audiogram } = useMessages()
  const { plot, textSize } = frame
  return lanes.map(({ ear, route, frequencies }, index) => {
    const y = laneTop(frame, index) + textSize
    return (
      <g key={`${ear}.${route}`} className={styles.lane} data-ear={ear} data-lane="could-not-test">
        <text x={plot.left - textSize * 0.4} y={y} fontSize={textSize * 0.8} textAnchor="end">
          {audiogram.lane(ear, route)}
        </text>
        {frequencies.map((hz) => (
          <text key={hz} x={xOf(frame, hz)} y={y} fontSize={textSize * 0.8} textAnchor="middle">
            {audiogram.couldNotTest}
          </text>
        ))}
      </g>
    )
  })
}

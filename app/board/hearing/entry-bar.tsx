import { Sign } from '@/app/audiogram/chart-layers.tsx'
import { symbolFor } from '@/app/audiogram/symbols.ts'
import { Button } from '@/app/components/button.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import {
  type HearingTest,
  type Point,
  type PointKey,
  type PointRoute,
  placeOfPoint,
  routesOf,
} from '@/lib/board/records/hearing-test.ts'
import type { PointChanges } from './chart-entry.ts'
import styles from './entry-bar.module.css'
import type { HearingView } from './hearing-view.ts'
import { Tick } from './view-controls.tsx'

interface EntryBarProps {
  readonly test: HearingTest
  readonly view: HearingView
  readonly last: PointKey | undefined
  readonly change: (patch: Partial<HearingView>) => void
  readonly onChanges: (changes: PointChanges) => void
}

/** Which sign a press on the chart enters, and what can be done with the one entered last. */
export function EntryBar({ test, view, last, change, onChanges }: EntryBarProps) {
  const { hearing, audiogram } = useMessages()
  const choices = routesOf[test.condition].flatMap((route) => [false, true].map((masked) => ({ route, masked })))
  return (
    <div className={styles.bar}>
      <fieldset className={styles.signs}>
        <legend className={styles.legend}>
          {hearing.brush.legend}, {audiogram.ears[test.ear].toLowerCase()}
        </legend>
        {choices.map(({ route, masked }) => (
          <SignChoice
            key={`${route}.${masked}`}
            test={test}
            route={route}
            masked={masked}
            chosen={view.route === route && view.masked === masked}
            onChoose={() => change({ route, masked })}
          />
        ))}
      </fieldset>
      <Tick label={hearing.brush.half} checked={view.halfOctaves} onChange={(halfOctaves) => change({ halfOctaves })} />
      <p className={styles.hint}>{hearing.hints.plot}</p>
      {last !== undefined && <LastEntered point={test.points[last]} at={last} test={test} onChanges={onChanges} />}
    </div>
  )
}

interface SignChoiceProps {
  readonly test: HearingTest
  readonly route: PointRoute
  readonly masked: boolean
  readonly chosen: boolean
  readonly onChoose: () => void
}

function SignChoice({ test, route, masked, chosen, onChoose }: SignChoiceProps) {
  const { hearing } = useMessages()
  const choice = symbolFor({ ear: test.ear, route, masked, noResponse: false })
  return (
    <button type="button" className={styles.sign} aria-pressed={chosen} onClick={onChoose}>
      <svg className={styles.drawing} data-ear={test.ear} viewBox="-14 -14 28 28" aria-hidden="true">
        <Sign choice={choice} ear={test.ear} r={7} />
      </svg>
      {hearing.grid.row[route]} {masked ? hearing.grid.masked : hearing.grid.unmasked}
    </button>
  )
}

interface LastEnteredProps {
  readonly point: Point | undefined
  readonly at: PointKey
  readonly test: HearingTest
  readonly onChanges: (changes: PointChanges) => void
}

function LastEntered({ point, at, test, onChanges }: LastEnteredProps) {
  const { hearing, audiogram } = useMessages()
  if (point === undefined || point.kind === 'could-not-test') return null
  const { route, frequency } = placeOfPoint(at)
  const turned: Point =
    point.kind === 'heard' ? { kind: 'no-response', limit: point.level } : { kind: 'heard', level: point.limit }
  return (
    <div className={styles.last}>
      <output>
        {hearing.brush.lastEntered(audiogram.readout(test.ear, route, frequency, audiogram.pointInWords(point)))}
      </output>
      <Button onClick={() => onChanges(new Map([[at, turned]]))}>
        {point.kind === 'heard' ? hearing.brush.noResponse : hearing.brush.heard}
      </Button>
      <Button onClick={() => onChanges(new Map([[at, undefined]]))}>{hearing.brush.remove}</Button>
    </div>
  )
}

import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import type { ActuatorBody } from '@/lib/devices/actuator-body.ts'
import type { RoomMeasurement } from '@/lib/devices/room-measurement.ts'
import { type FitOfDimension, type FitVerdict, fitMarginMm, fitOf } from '@/lib/forecast/fit-check.ts'
import styles from './fit-list.module.css'

const toneOf: Record<FitVerdict, Tone> = { fits: 'good', 'too-close-to-call': 'caution', 'does-not-fit': 'stop' }

interface FitVerdictsProps {
  readonly bodies: readonly ActuatorBody[]
  readonly rooms: readonly RoomMeasurement[]
}

/** For each body what its sides need, what was measured, what is to spare and how sure that is. */
export function FitVerdicts({ bodies, rooms }: FitVerdictsProps) {
  const { forecastRecords } = useMessages()
  const { fit: words } = forecastRecords
  if (bodies.length === 0) return <p className={styles.note}>{words.noBody}</p>
  return (
    <>
      {bodies.map((body) => (
        <BodyFit key={body.id} body={body} rooms={rooms} />
      ))}
      <p className={styles.note}>{words.rule(fitMarginMm)}</p>
      <p className={styles.note}>{words.aside}</p>
    </>
  )
}

function BodyFit({ body, rooms }: { readonly body: ActuatorBody; readonly rooms: readonly RoomMeasurement[] }) {
  const { forecastRecords } = useMessages()
  const { fit: words } = forecastRecords
  const { dimensions, verdict } = fitOf(body, rooms)
  return (
    <table className={styles.table}>
      <caption className={styles.caption}>
        {words.body(body.id)}{' '}
        {verdict === undefined ? (
          <StateSign tone="caution">{words.undecided}</StateSign>
        ) : (
          <StateSign tone={toneOf[verdict]}>{words.verdict[verdict]}</StateSign>
        )}
      </caption>
      <thead>
        <tr>
          <th scope="col">{words.side}</th>
          <th scope="col">{words.needs}</th>
          <th scope="col">{words.measured}</th>
          <th scope="col">{words.spare}</th>
          <th scope="col">{words.sd}</th>
        </tr>
      </thead>
      <tbody>
        {dimensions.map((fit) => (
          <SideRow key={fit.dimension} fit={fit} />
        ))}
      </tbody>
    </table>
  )
}

function SideRow({ fit }: { readonly fit: FitOfDimension }) {
  const { forecastRecords } = useMessages()
  const { fit: words } = forecastRecords
  return (
    <tr>
      <th scope="row">
        {words.dimension[fit.dimension]}{' '}
        {fit.kind === 'measured' && <StateSign tone={toneOf[fit.verdict]}>{words.verdict[fit.verdict]}</StateSign>}
      </th>
      <td>{words.mm(fit.needsMm)}</td>
      {fit.kind === 'measured' ? (
        <>
          <td>{words.mm(fit.distanceMm)}</td>
          <td>{words.mm(fit.clearanceMm)}</td>
          <td>{words.mm(fit.sdMm)}</td>
        </>
      ) : (
        <td colSpan={3} className={styles.note}>
          {words.notMeasured}
        </td>
      )}
    </tr>
  )
}

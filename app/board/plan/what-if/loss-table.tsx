import { useMessages } from '@/app/messages/for-forecast.ts'
import type { LossAt } from '@/lib/forecast/loss-by-frequency.ts'
import type { DriveLoss } from '@/lib/forecast/loss-model.ts'
import styles from './answer-table.module.css'

/** What findings and scenario take from the drive: estimate, spread between ears and over the networks, always together. */
export function LossTable({ losses }: { readonly losses: readonly LossAt[] }) {
  const { forecast, whatIf } = useMessages()
  const { loss: words } = whatIf
  if (losses.every(({ loss }) => loss.route === 'past-chain')) return <p className={styles.note}>{words.skull}</p>
  return (
    <table className={styles.table}>
      <caption className={styles.caption}>
        {words.title} <span className={styles.note}>{words.hint}</span>
      </caption>
      <thead>
        <tr>
          <th scope="col">{forecast.frequency}</th>
          <th scope="col">{`${words.best}, ${forecast.unit.gain}`}</th>
          <th scope="col">{`${words.sd}, ${forecast.unit.gain}`}</th>
          <th scope="col">{`${words.sets}, ${forecast.unit.gain}`}</th>
        </tr>
      </thead>
      <tbody>
        {losses.map(({ frequency, loss }) => (
          <tr key={frequency}>
            <th scope="row">
              {forecast.hertz(frequency)}{' '}
              {loss.confidence === 'low' && <span className={styles.remark}>△ {whatIf.lowConfidence}</span>}
            </th>
            <LossCells loss={loss} />
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function LossCells({ loss }: { readonly loss: DriveLoss }) {
  const { forecast, whatIf } = useMessages()
  if (loss.route === 'none') return <td colSpan={3}>{whatIf.loss.nothingArrives}</td>
  const { acrossSetsDb } = loss
  return (
    <>
      <td>
        <b>{forecast.number(loss.lossDb)}</b>
      </td>
      <td>{forecast.decimal(loss.sdDb)}</td>
      <td>{acrossSetsDb === undefined ? whatIf.loss.oneSet : forecast.range(acrossSetsDb.low, acrossSetsDb.high)}</td>
    </>
  )
}

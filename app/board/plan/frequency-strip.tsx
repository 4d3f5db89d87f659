import { useMessages } from '@/app/messages/for-forecast.ts'
import type { FrequencyForecast } from '@/lib/forecast/at-frequency.ts'
import { Figure } from './figure.tsx'
import styles from './frequency-strip.module.css'

/** Expected aided thresholds in one row, for the main screen: frequencies without a number are left out. */
export function FrequencyStrip({ byFrequency }: { byFrequency: readonly FrequencyForecast[] }) {
  const { forecast } = useMessages()
  const known = byFrequency.filter(({ aidedThreshold }) => aidedThreshold.kind !== 'absent')
  return (
    <table className={styles.strip}>
      <caption className={styles.caption}>{`${forecast.quantity.aidedThreshold}, ${forecast.unit.threshold}`}</caption>
      <thead>
        <tr>
          {known.map(({ frequency }) => (
            <th key={frequency} scope="col">
              {forecast.hertz(frequency)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        <tr>
          {known.map(({ frequency, aidedThreshold }) => (
            <td key={frequency}>
              <Figure
                what={forecast.why.atFrequency(forecast.quantity.aidedThreshold, forecast.hertz(frequency))}
                unit={forecast.unit.threshold}
                prediction={aidedThreshold}
              />
            </td>
          ))}
        </tr>
      </tbody>
    </table>
  )
}

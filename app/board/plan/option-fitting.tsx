import { StateSign, type Tone } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { CandidacyAt } from '@/lib/forecast/candidacy.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import type { FittingVerdict } from '@/lib/forecast/headroom.ts'
import { marginOver } from './options-sort.ts'
import styles from './options-table.module.css'

export const toneOf: Record<FittingVerdict, Tone> = { inside: 'good', depends: 'caution', outside: 'stop' }

const worstFirst = ['outside', 'cannot-tell', 'inside'] as const
const labellingTone: Record<CandidacyAt['verdict'], Tone> = {
  outside: 'stop',
  'cannot-tell': 'caution',
  inside: 'good',
}

/** Whether the option fits the ear: headroom with its margin, limits of the labelling, and in what the ear differs. */
export function OptionFitting({ forecast }: { forecast: Forecast }) {
  const { forecast: words } = useMessages()
  const { fitting, candidacy, concerns } = forecast
  const margin = marginOver(forecast)
  const worst = worstFirst.find((verdict) => candidacy.limits.some((limit) => limit.verdict === verdict))
  const beyond = candidacy.limits
    .filter(({ verdict, beyondDb }) => verdict === 'outside' && beyondDb !== undefined)
    .toSorted((a, b) => (b.beyondDb ?? 0) - (a.beyondDb ?? 0))[0]
  return (
    <>
      {fitting !== undefined && <StateSign tone={toneOf[fitting]}>{words.verdictSign[fitting]}</StateSign>}
      {margin !== undefined && (
        <span className={styles.margin} title={words.marginHint}>
          {`${words.lines.margin} ${margin.atMost ? words.atMost(margin.high) : words.range(margin.low, margin.high)} ${words.unit.gain}`}
        </span>
      )}
      {worst !== undefined && (
        <StateSign tone={labellingTone[worst]}>
          {[
            words.labelling[worst],
            beyond === undefined ? '' : words.beyondBy(beyond.beyondDb ?? 0, words.hertz(beyond.frequency)),
          ]
            .filter(Boolean)
            .join(' ')}
        </StateSign>
      )}
      {concerns.length > 0 && (
        <span title={concerns.map((concern) => words.concerns[concern]).join(' ')}>
          <StateSign tone="caution">{words.concern}</StateSign>
        </span>
      )}
    </>
  )
}

import { SourceLine } from '@/app/board/measures/source-line.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-speech.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { findingRules } from '@/lib/audiometry/findings.ts'
import type { ReceptionReading } from './reception-reading.ts'
import styles from './speech-list.module.css'

interface ReceptionProps {
  readonly reading: ReceptionReading
}

/** How far the threshold for speech and the tones of the day agree; 10 dB is accepted. */
export function ReceptionFinding({ reading: { tones } }: ReceptionProps) {
  const { tones: words } = useMessages().speech
  const { difference, agreement, withinTenDb } = tones?.agreement ?? {}
  if (difference === undefined || agreement === undefined) return null
  if (withinTenDb)
    return (
      <p className={styles.findings} data-agreement={agreement}>
        <StateSign tone="quiet" sign="≈">
          {words.agree(difference, agreement)}
        </StateSign>
      </p>
    )
  return (
    <p className={styles.findings} data-agreement={agreement}>
      <StateSign tone={difference < 0 ? 'stop' : 'caution'}>
        {difference < 0 ? words.better(-difference) : words.poorer(difference)}
      </StateSign>
    </p>
  )
}

/** What the threshold was held against, or why against nothing. */
export function ReceptionHow({ reading: { test, tones } }: ReceptionProps) {
  const { speech } = useMessages()
  return (
    <details className={styles.how}>
      <summary>{speech.how}</summary>
      <p>{speech.receptionHow}</p>
      <p>
        {tones === undefined ? (
          test.condition === 'unaided' ? (
            speech.tones.noTest
          ) : (
            speech.tones.withDevice
          )
        ) : (
          <ToneAverage tones={tones} />
        )}
      </p>
    </details>
  )
}

function ToneAverage({ tones: { agreement, audiogram } }: { tones: NonNullable<ReceptionReading['tones']> }) {
  const { speech } = useMessages()
  const { average, by, difference } = agreement
  if (average.value === undefined || difference === undefined) return speech.tones.noAverage
  return (
    <>
      {speech.toneAverage(speech.toneAverages[by], average.value, calendarDayOf(audiogram.performedOn))}{' '}
      <SourceLine of={findingRules['speech-poorer-than-tones']} />
    </>
  )
}

'use client'

import { useMessages } from '@/app/messages/for-screens.ts'
import type { SealedForecast } from '@/lib/devices/sealed-forecast.ts'
import { isWeak } from '@/lib/forecast/evidence.ts'
import { deviceProfiles } from '@/lib/forecast/profiles.ts'
import { PersonLine } from './person-line.tsx'
import styles from './sealed-view.module.css'

interface SealedFootProps {
  /** when it was sealed or frozen, in words */
  readonly since: string
  readonly author: string
  readonly content: SealedForecast
}

/** By whom and when, computed by what, and how far that is to be trusted. */
export function SealedFoot({ since, author, content }: SealedFootProps) {
  const { forecast, screens } = useMessages()
  const { id, version } = content.profile
  const remarks = [
    forecast.intervalNote,
    screens.screen.computedBy(id, version, content.modelVersion),
    forecast.cautionShort,
  ]
  return (
    <p className={styles.foot}>
      <span className={styles.signed}>
        <span>{since}</span> <PersonLine participant={author} />
      </span>
      <span className={styles.caution}>
        {standsOnWeakEvidence(content) && `△ ${forecast.weakShort} `}
        {remarks.join('. ')}
      </span>
    </p>
  )
}

/** Of the board's own profiles; a team's profile names the labelling. */
const standsOnWeakEvidence = ({ profile, option }: SealedForecast): boolean =>
  deviceProfiles.some(
    ({ id, couplings, sources }) =>
      id === profile.id &&
      couplings.some(
        ({ sites, gain }) =>
          sites.includes(option.couplingSite) && sources.some((source) => source.id === gain.source && isWeak(source)),
      ),
  )

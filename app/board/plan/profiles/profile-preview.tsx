import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast-records.ts'
import type { DeviceProfile, MaximumOutput } from '@/lib/devices/device-profile.ts'
import { Sources } from '../why-sources.tsx'
import styles from './profiles.module.css'

/** A profile in words, before it is entered for good. */
export function ProfilePreview({ profile }: { readonly profile: DeviceProfile }) {
  const { forecast, forecastRecords, words: shared } = useMessages()
  const { profiles: words, fit } = forecastRecords
  const { candidacy, couplings, bodies = [] } = profile
  const outputText = ({ byFrequency = [] }: MaximumOutput) =>
    byFrequency
      .map(({ frequency, lowDbHl, highDbHl }) =>
        words.atHertz(forecast.hertz(frequency), forecast.range(lowDbHl, highDbHl)),
      )
      .join('; ')
  return (
    <section className={styles.preview} aria-label={words.preview}>
      <p className={styles.name}>
        {shared.labelled(words.preview, words.version(profile.id, profile.version))}{' '}
        <StateSign tone="good">{words.noFaults}</StateSign>
      </p>
      <p>{shared.deviceClass[profile.deviceClass]}</p>
      <dl className={styles.facts}>
        <dt>{forecast.candidacy}</dt>
        <dd>{forecast.candidacyRemark(candidacy.remark)}</dd>
        <dt>{words.limits}</dt>
        <dd>
          {(candidacy.limits ?? [])
            .map(({ frequency, worstBoneDbHl }) => words.atHertz(forecast.hertz(frequency), String(worstBoneDbHl)))
            .join('; ')}
        </dd>
        {couplings.map(({ sites, outputs }) => (
          <div key={sites.join(' ')}>
            <dt>{sites.map((site) => shared.couplingSite[site]).join(', ')}</dt>
            <dd>{shared.labelled(words.outputs, outputs.map(outputText).join(' | '))}</dd>
          </div>
        ))}
        <dt>{words.bodies}</dt>
        <dd>
          {bodies
            .map(({ id, massMg, envelope }) =>
              words.bodyFacts(
                id,
                massMg === undefined ? forecast.none : words.massMg(massMg),
                envelope.map(({ dimension, mm }) => `${fit.dimension[dimension]} ${fit.mm(mm)}`).join(', '),
              ),
            )
            .join('; ')}
        </dd>
      </dl>
      <Sources sources={profile.sources} />
    </section>
  )
}

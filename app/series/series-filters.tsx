'use client'

import Link from 'next/link'
import { Field } from '@/app/components/field.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import { CouplingSite, DeviceClass } from '@/lib/devices/classes.ts'
import { Pathology } from '@/lib/devices/pathology.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import type { FilterField, SeriesFilter } from '@/lib/interchange/series-filter.ts'
import { chainStates } from '@/lib/outcomes/series-case.ts'
import { resultPlaces } from '@/lib/outcomes/series-result.ts'
import { Ear } from '@/lib/units/frequencies.ts'
import styles from './series-filters.module.css'
import { TagFilter } from './tag-filter.tsx'
import { useSeriesQuery } from './use-series-query.ts'

interface SeriesFiltersProps {
  readonly query: string
  readonly filter: SeriesFilter
  readonly tags: SeriesAnswer['tags']
}

/** What the series is made of; every choice stands in the address, so that a series can be sent and come back to. */
export function SeriesFilters({ query, filter, tags }: SeriesFiltersProps) {
  const { series, words, cause } = useMessages()
  const change = useSeriesQuery(query)
  const choice = (field: FilterField, value: string, options: readonly (readonly [string, string])[]) => (
    <Choice field={field} value={value} options={options} onChange={(next) => change(field, next)} />
  )
  return (
    <section className={styles.filters} aria-label={series.filters}>
      {choice(
        'class',
        filter.deviceClass ?? '',
        DeviceClass.options.map((each) => [each, words.deviceClass[each]]),
      )}
      {choice(
        'site',
        filter.site ?? '',
        CouplingSite.options.map((each) => [each, words.couplingSite[each]]),
      )}
      {choice(
        'pathology',
        filter.pathology ?? '',
        Pathology.options.map((each) => [each, cause.pathologies[each]]),
      )}
      {choice(
        'chain',
        filter.chain ?? '',
        chainStates.map((each) => [each, series.chain[each]]),
      )}
      {choice(
        'ear',
        filter.ear ?? '',
        Ear.options.map((each) => [each, words.ear[each]]),
      )}
      <TagFilter chosen={filter.tags ?? []} tags={tags} onChange={(chosen) => change('tag', ...chosen)} />
      <Day field="from" value={filter.from} onChange={(next) => change('from', next)} />
      <Day field="to" value={filter.to} onChange={(next) => change('to', next)} />
      <Field label={series.fields.at}>
        {(control) => (
          <select {...control} value={filter.at} onChange={({ target }) => change('at', target.value)}>
            {resultPlaces.map((each) => (
              <option key={each} value={each}>
                {series.at[each]}
              </option>
            ))}
          </select>
        )}
      </Field>
      {query !== '' && (
        <Link className={styles.clear} href="/series" scroll={false}>
          {series.clear}
        </Link>
      )}
    </section>
  )
}

interface ChoiceProps {
  readonly field: FilterField
  readonly value: string
  readonly options: readonly (readonly [string, string])[]
  readonly onChange: (value: string) => void
}

function Choice({ field, value, options, onChange }: ChoiceProps) {
  const { series } = useMessages()
  return (
    <Field label={series.fields[field]}>
      {(control) => (
        <select {...control} value={value} onChange={({ target }) => onChange(target.value)}>
          <option value="">{series.all}</option>
          {options.map(([each, label]) => (
            <option key={each} value={each}>
              {label}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

interface DayProps {
  readonly field: 'from' | 'to'
  readonly value: string | undefined
  readonly onChange: (value: string) => void
}

/** Asked for when it is left: a year that is being typed is a day of the first century on the way. */
function Day({ field, value = '', onChange }: DayProps) {
  const { series } = useMessages()
  return (
    <Field label={series.fields[field]}>
      {(control) => (
        <input
          {...control}
          key={value}
          type="date"
          defaultValue={value}
          onBlur={({ target }) => {
            if (target.value !== value) onChange(target.value)
          }}
        />
      )}
    </Field>
  )
}

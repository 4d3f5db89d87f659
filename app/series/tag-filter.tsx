'use client'

import { AddChoice } from '@/app/components/add-choice.tsx'
import { useMessages } from '@/app/messages/for-series.ts'
import { mostTags } from '@/lib/devices/pathology.ts'
import type { SeriesAnswer } from '@/lib/interchange/series.ts'
import styles from './tag-filter.module.css'

interface TagFilterProps {
  readonly chosen: readonly string[]
  readonly tags: SeriesAnswer['tags']
  readonly onChange: (tags: readonly string[]) => void
}

/** Ears that have all of the chosen tags. */
export function TagFilter({ chosen, tags, onChange }: TagFilterProps) {
  const { series } = useMessages()
  const offered = tags.filter(({ tag }) => !chosen.includes(tag))
  return (
    <div className={styles.tags}>
      <AddChoice
        label={series.fields.tag}
        prompt={chosen.length === 0 ? series.all : series.addTag}
        add={series.add}
        options={chosen.length >= mostTags ? [] : offered.map(({ tag, n }) => [tag, `${tag} (${n})`])}
        onAdd={(tag) => onChange([...chosen, tag])}
      />
      {chosen.length > 0 && (
        <ul className={styles.chosen} aria-label={series.allTags}>
          {chosen.map((tag) => (
            <li key={tag}>
              <button
                type="button"
                className={styles.tag}
                aria-label={series.dropTag(tag)}
                onClick={() => onChange(chosen.filter((each) => each !== tag))}
              >
                {tag} <span aria-hidden="true">×</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

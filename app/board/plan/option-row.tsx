import type { ButtonHTMLAttributes } from 'react'
import { Button } from '@/app/components/button.tsx'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/for-forecast.ts'
import type { EarOption } from '@/lib/forecast/ear-options.ts'
import type { Forecast } from '@/lib/forecast/forecast.ts'
import { isOwnProfile, optionKey } from './case-forecast.ts'
import { Figure, type OnWhy } from './figure.tsx'
import { FigureLine } from './figure-line.tsx'
import { IntervalBar } from './interval-bar.tsx'
import { OptionFitting } from './option-fitting.tsx'
import { optionText } from './option-text.ts'
import { letters, mostLaid } from './options-laid.ts'
import styles from './options-table.module.css'
import type { OptionActs } from './options-table.tsx'
import { shortRefusalText } from './refusal-text.ts'

export type CellAt = (column: number) => ButtonHTMLAttributes<HTMLButtonElement>

interface OptionRowProps {
  readonly option: EarOption
  readonly acts: OptionActs
  readonly onWhy: OnWhy
  readonly cellAt: CellAt
}

/** Columns of the grid of numbers, from left to right; what is done with an option comes after them. */
const columns = { aided: 0, gains: 1, speech: 4, words: 7, acts: 12 } as const
const gains = ['effectiveGain', 'functionalGain', 'residualGap'] as const

export function OptionRow({ option, acts, onWhy, cellAt }: OptionRowProps) {
  const { forecast: words, words: shared } = useMessages()
  const { outcome } = option
  const key = optionKey(option)
  return (
    <tr data-planned={key === acts.planned} data-looked-at={key === acts.lookedAt}>
      <th scope="row" className={styles.option}>
        <span className={styles.class}>{shared.deviceClass[option.option.deviceClass]}</span>
        <span className={styles.site}>{shared.couplingSite[option.option.couplingSite]}</span>
        {isOwnProfile(option) && (
          <span className={styles.class}>{words.ownProfile(option.profile.id, option.profile.version)}</span>
        )}
        <OptionSigns option={option} acts={acts} />
        <Acts option={option} acts={acts} cellAt={cellAt} />
      </th>
      {outcome.ok ? (
        <Numbers forecast={outcome.forecast} onWhy={onWhy} cellAt={cellAt} />
      ) : (
        <td colSpan={3} className={styles.reason}>
          {shortRefusalText(outcome.refusal, words, shared)}
        </td>
      )}
    </tr>
  )
}

function OptionSigns({ option, acts }: Pick<OptionRowProps, 'option' | 'acts'>) {
  const { forecast: words } = useMessages()
  const key = optionKey(option)
  const place = acts.laid.indexOf(key)
  return (
    <span className={styles.signs}>
      {key === acts.planned && <StateSign tone="accent">{words.planned}</StateSign>}
      {place >= 0 && (
        <StateSign tone="quiet" sign={letters[place]}>
          {words.lay}
        </StateSign>
      )}
      {option.outcome.ok && <OptionFitting forecast={option.outcome.forecast} />}
    </span>
  )
}

function Acts({ option, acts, cellAt }: Pick<OptionRowProps, 'option' | 'acts' | 'cellAt'>) {
  const { forecast: words, words: shared } = useMessages()
  const name = optionText(option.option, undefined, shared)
  const key = optionKey(option)
  const isLaid = acts.laid.includes(key)
  return (
    <span className={styles.acts}>
      <Button
        tone="quiet"
        aria-pressed={key === acts.lookedAt}
        aria-label={words.lookNamed(name)}
        onClick={() => acts.onLook(option)}
        {...cellAt(columns.acts)}
      >
        {key === acts.lookedAt ? words.lookedAt : words.look}
      </Button>
      <Button
        tone="quiet"
        aria-pressed={isLaid}
        aria-label={words.layNamed(name)}
        disabled={!option.outcome.ok || (!isLaid && acts.laid.length >= mostLaid)}
        title={!isLaid && acts.laid.length >= mostLaid ? words.mostLaid : undefined}
        onClick={() => acts.onLay(key)}
        {...cellAt(columns.acts + 1)}
      >
        {words.layShort}
      </Button>
      {acts.onChoose !== undefined && key !== acts.planned && (
        <Button
          tone="quiet"
          aria-label={words.chooseNamed(name)}
          onClick={() => acts.onChoose?.(option)}
          {...cellAt(columns.acts + 2)}
        >
          {words.choose}
        </Button>
      )}
    </span>
  )
}

interface NumbersProps {
  readonly forecast: Forecast
  readonly onWhy: OnWhy
  readonly cellAt: CellAt
}

function Numbers({ forecast, onWhy, cellAt }: NumbersProps) {
  const { forecast: words, words: shared } = useMessages()
  const { fourTone, option, speech, wordScores } = forecast
  const name = optionText(option, undefined, shared)
  const what = (quantity: string) => `${quantity}, ${name}`
  const aided = fourTone.aidedThreshold
  return (
    <>
      <td className={styles.aided}>
        <Figure
          what={what(words.quantity.aidedThreshold)}
          unit={words.unit.threshold}
          prediction={aided}
          onWhy={onWhy}
          showUnit
          cell={cellAt(columns.aided)}
        />
        <IntervalBar prediction={aided} />
        {aided.kind === 'estimate' && (
          <span className={styles.half}>
            {words.interval50(words.range(aided.interval50.low, aided.interval50.high))}
          </span>
        )}
      </td>
      <td className={styles.lines}>
        {gains.map((quantity, index) => (
          <FigureLine
            key={quantity}
            label={words.lines[quantity]}
            what={what(words.quantity[quantity])}
            unit={words.unit.gain}
            prediction={fourTone[quantity]}
            onWhy={onWhy}
            cell={cellAt(columns.gains + index)}
          />
        ))}
      </td>
      <td className={styles.lines}>
        {speech.map(({ condition, aided: index }, place) => (
          <FigureLine
            key={condition}
            label={words.lines[condition]}
            what={what(words.speechFull[condition])}
            unit={words.unit.index}
            prediction={index}
            spell={words.hundredth}
            onWhy={onWhy}
            cell={cellAt(columns.speech + place)}
          />
        ))}
        {wordScores.map(({ variant, score }, place) => (
          <FigureLine
            key={variant}
            label={[`${words.lines.wordScore}, ${words.unit.score}`, words.variant[variant]].filter(Boolean).join(', ')}
            what={what([words.quantity.wordScore, words.variant[variant]].filter(Boolean).join(', '))}
            unit={words.unit.score}
            prediction={score}
            onWhy={onWhy}
            cell={cellAt(columns.words + place)}
          />
        ))}
        {wordScores.length === 0 && (
          <span className={styles.noScore} title={words.absence['no-published-word-score']}>
            {words.noWords}
          </span>
        )}
      </td>
    </>
  )
}

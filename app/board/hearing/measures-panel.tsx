import type { ReactNode } from 'react'
import { StateSign } from '@/app/components/state-sign.tsx'
import { useMessages } from '@/app/messages/use-messages.ts'
import type { AverageInput, AverageResult } from '@/lib/audiometry/averages.ts'
import type { Provenance } from '@/lib/audiometry/provenance.ts'
import type { TestState } from '@/lib/board/records/hearing-test.ts'
import type { Ear } from '@/lib/units/frequencies.ts'
import type { Measure } from './measures.ts'
import styles from './measures-panel.module.css'

interface MeasuresPanelProps {
  readonly ear: Ear
  /** of the test that the measures come from */
  readonly state: TestState
  readonly measures: readonly Measure[]
}

/** Measures beside the chart, each with its convention and how it was computed. */
export function MeasuresPanel({ ear, state, measures }: MeasuresPanelProps) {
  const { hearing, audiogram } = useMessages()
  return (
    <section className={styles.panel} aria-label={hearing.measures.heading}>
      <h3 className={styles.heading} data-ear={ear}>
        {hearing.measures.heading}, {audiogram.ears[ear].toLowerCase()}
      </h3>
      {state !== 'current' && (
        <p>
          <StateSign tone={state === 'superseded' ? 'superseded' : 'error'}>{audiogram.testStates[state]}</StateSign>
        </p>
      )}
      <ul className={styles.list} data-state={state}>
        {measures.map((measure) => (
          <MeasureItem key={keyOf(measure)} measure={measure} />
        ))}
      </ul>
    </section>
  )
}

const keyOf = (measure: Measure): string =>
  measure.kind === 'average' ? `average ${measure.result.convention.id}` : measure.kind

function MeasureItem({ measure }: { measure: Measure }) {
  switch (measure.kind) {
    case 'average':
      return <AverageMeasure result={measure.result} />
    case 'gap':
      return <GapMeasure measure={measure} />
    case 'type':
      return <TypeMeasure result={measure.result} />
    case 'grade':
      return <GradeMeasure result={measure.result} />
    case 'grade-better':
      return <BetterEarMeasure measure={measure} />
    default:
      return measure satisfies never
  }
}

interface MeasureRowProps {
  readonly name: string
  readonly value: string
  readonly convention: string
  /** what is missing or uncertain */
  readonly remark?: string | undefined
  readonly measure: string
  readonly source: Provenance
  readonly children: ReactNode
}

function MeasureRow({ name, value, convention, remark, measure, source, children }: MeasureRowProps) {
  const { hearing } = useMessages()
  const words = hearing.measures
  return (
    <li className={styles.row} data-measure={measure}>
      <div className={styles.name}>{name}</div>
      <div className={styles.value}>{value}</div>
      {remark !== undefined && <div className={styles.remark}>{remark}</div>}
      <details className={styles.how}>
        <summary aria-label={`${name}, ${convention}: ${words.how}`}>
          {convention} <span className={styles.ask}>{words.how}</span>
        </summary>
        {children}
        <dl className={styles.facts}>
          <Fact name={words.source}>{source.source}</Fact>
          <Fact name={words.status}>{words.statusWords[source.status]}</Fact>
          {source.reservation !== undefined && <Fact name={words.reservation}>{source.reservation}</Fact>}
        </dl>
      </details>
    </li>
  )
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className={styles.fact}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

function Inputs({ title, result }: { title: string; result: AverageResult }) {
  const { hearing } = useMessages()
  const words = hearing.measures
  return (
    <dl className={styles.facts}>
      <Fact name={title}>
        <ul>
          {result.inputs.map((input) => (
            <li key={input.frequency}>{words.input(input.frequency, input.usedAs, howOf(input, words))}</li>
          ))}
        </ul>
        {result.missing.length > 0 && words.missing(result.missing)}
      </Fact>
      {result.value !== undefined && (
        <Fact name={words.formula}>
          {words.mean(result.inputs.map(({ usedAs }) => usedAs))} = {words.level(result.value, result.censored)}
        </Fact>
      )}
      {result.substituted?.uncertain && <Fact name={words.reservation}>{words.uncertain3000}</Fact>}
    </dl>
  )
}

type MeasureWords = ReturnType<typeof useMessages>['hearing']['measures']

function howOf({ how, threshold }: AverageInput, words: MeasureWords): string {
  const masked = threshold !== undefined && threshold.kind !== 'could-not-test' && threshold.masked
  return `${masked ? words.maskedInput : ''}${words.inputHow[how]}`
}

const averageText = ({ value, censored }: AverageResult, words: MeasureWords): string =>
  value === undefined ? words.noValue : words.level(value, censored)

function AverageMeasure({ result }: { result: AverageResult }) {
  const { hearing } = useMessages()
  const words = hearing.measures
  const who = result.convention.id === 'pta4-who'
  return (
    <MeasureRow
      measure={result.convention.id}
      name={who ? words.ptaWho : words.ptaAao}
      value={averageText(result, words)}
      convention={words.conventions[who ? 'pta4-who' : 'pta4-aao']}
      remark={remarkOn(result, words)}
      source={result.convention}
    >
      <Inputs title={words.inputs} result={result} />
    </MeasureRow>
  )
}

function remarkOn({ missing, substituted }: AverageResult, words: MeasureWords): string | undefined {
  if (missing.length > 0) return words.missing(missing)
  return substituted?.uncertain ? words.uncertain3000 : undefined
}

function GapMeasure({ measure: { result } }: { measure: Extract<Measure, { kind: 'gap' }> }) {
  const { hearing } = useMessages()
  const words = hearing.measures
  return (
    <MeasureRow
      measure="gap"
      name={words.gap}
      value={result.difference === undefined ? words.noValue : words.difference(result.difference)}
      convention={words.conventions.gap}
      remark={result.missing.length > 0 ? words.missing(result.missing) : undefined}
      source={result.minuend.convention}
    >
      <Inputs title={words.airPart} result={result.minuend} />
      <Inputs title={words.bonePart} result={result.subtrahend} />
      <dl className={styles.facts}>
        <Fact name={words.formula}>
          {words.gapFormula(averageText(result.minuend, words), averageText(result.subtrahend, words))}
        </Fact>
      </dl>
    </MeasureRow>
  )
}

function TypeMeasure({ result }: { result: Extract<Measure, { kind: 'type' }>['result'] }) {
  const { hearing } = useMessages()
  const words = hearing.measures
  return (
    <MeasureRow
      measure="type"
      name={words.type}
      value={words.lossTypes[result.type]}
      convention={words.conventions['set-1']}
      remark={result.unknownBecause === undefined ? undefined : words.because[result.unknownBecause]}
      source={result.criteria}
    >
      <Inputs title={words.airPart} result={result.air} />
      <Inputs title={words.bonePart} result={result.bone} />
      {result.gap !== undefined && (
        <dl className={styles.facts}>
          <Fact name={words.formula}>
            {words.gapFormula(averageText(result.air, words), averageText(result.bone, words))} ={' '}
            {words.difference(result.gap)}
          </Fact>
        </dl>
      )}
    </MeasureRow>
  )
}

function GradeMeasure({ result }: { result: Extract<Measure, { kind: 'grade' }>['result'] }) {
  const { hearing } = useMessages()
  const words = hearing.measures
  const { grade, orWorse, average, scale } = result
  return (
    <MeasureRow
      measure="grade"
      name={words.grade}
      value={grade === undefined ? words.noValue : words.gradeWords(grade, orWorse)}
      convention={words.conventions['who-ear']}
      remark={average.missing.length > 0 ? words.missing(average.missing) : undefined}
      source={scale}
    >
      <Inputs title={words.inputs} result={average} />
    </MeasureRow>
  )
}

function BetterEarMeasure({ measure: { result, betterEar } }: { measure: Extract<Measure, { kind: 'grade-better' }> }) {
  const { hearing, audiogram } = useMessages()
  const words = hearing.measures
  const { grade, orWorse, averages, scale } = result
  const ear = betterEar === undefined ? '' : ` (${audiogram.ears[betterEar].toLowerCase()})`
  const value = grade === undefined ? words.noValue : `${words.gradeWords(grade, orWorse)}${ear}`
  const missing = (['right', 'left'] as const).filter((side) => averages[side].missing.length > 0)
  return (
    <MeasureRow
      measure="grade-better"
      name={words.gradeBetter}
      value={result.unilateral ? `${value}, ${words.unilateral}` : value}
      convention={words.conventions['who-better']}
      remark={
        missing.length === 0
          ? undefined
          : missing.map((side) => words.missingFor(audiogram.ears[side], averages[side].missing)).join('; ')
      }
      source={scale}
    >
      {(['right', 'left'] as const).map((side) => (
        <Inputs key={side} title={audiogram.ears[side]} result={averages[side]} />
      ))}
    </MeasureRow>
  )
}

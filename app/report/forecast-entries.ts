import { calendarDayOf } from '@/app/messages/moments.ts'
import type { ForecastScore, Scored } from '@/lib/forecast/scoring.ts'
import type { CaseReport } from '@/lib/report/case-report.ts'
import type { SheetWords } from './record-sheet.ts'
import type { Entry } from './sheet.ts'

type ForecastWords = SheetWords['messages']['report']['forecast']

/** What was sealed, and how the visit stands to it, in sentences. */
export function forecastEntries({ forecast, score }: CaseReport, { messages, nameOf }: SheetWords): readonly Entry[] {
  const labels = messages.report.forecast
  if (forecast === undefined) return [{ id: 'none', text: labels.none }]
  const { aidedThreshold } = forecast.content.fourTone
  const sentences = [
    labels.sealed(nameOf(forecast.author), calendarDayOf(forecast.at)),
    ...(aidedThreshold.kind === 'estimate'
      ? [labels.expected(aidedThreshold.value, aidedThreshold.interval.low, aidedThreshold.interval.high)]
      : []),
    ...(score === undefined ? [labels.noAided] : scoreSentences(score, labels)),
  ]
  return [{ id: 'forecast', text: sentences.join(' ') }]
}

function scoreSentences({ byFrequency, fourTone }: ForecastScore, labels: ForecastWords): readonly string[] {
  const scored = byFrequency.flatMap(({ score }) => (score.kind === 'scored' ? [score] : []))
  const inside = scored.filter(({ inside80 }) => inside80).length
  return [
    ...(fourTone.kind === 'scored' ? fourToneSentences(fourTone, labels) : [labels.noFourTone]),
    labels.tones(inside, scored.length),
  ]
}

const fourToneSentences = (
  { measured, error, inside50, inside80, rankedProbability }: Scored,
  labels: ForecastWords,
): readonly string[] => [
  labels.measured(measured, error, inside50 ? labels.inside50 : inside80 ? labels.inside80 : labels.outside),
  ...(rankedProbability === undefined ? [] : [labels.score(rankedProbability)]),
]

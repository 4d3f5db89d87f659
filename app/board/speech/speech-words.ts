import { useMessages } from '@/app/messages/for-speech.ts'
import { calendarDayOf } from '@/app/messages/moments.ts'
import { isReception, isScore, type ScoreTest, type SpeechTest } from '@/lib/board/records/speech-test.ts'

type SpeechMessages = ReturnType<typeof useMessages>['speech']

/** Level and noise in words. */
export const levelWords = ({ speechLevel, noiseLevel }: ScoreTest, speech: SpeechMessages): string =>
  noiseLevel === undefined ? speech.inQuiet(speechLevel) : speech.inNoise(speechLevel, noiseLevel)

export const materialWords = ({ material, listName }: SpeechTest, speech: SpeechMessages): string =>
  [speech.fields.materials[material], listName].filter((part) => part !== '').join(', ')

/** A score as a count and a percentage. */
export const scoreWords = ({ right, items }: ScoreTest, speech: SpeechMessages): string =>
  `${speech.percent(right / items)}, ${speech.score(right, items)}`

/** A speech test in one sentence. */
export function useSpeechSentence(): (test: SpeechTest) => string {
  const { speech, words } = useMessages()
  return (test) =>
    speech.sentence([
      speech.fields.ears[test.ear],
      words.condition[test.condition].toLowerCase(),
      materialWords(test, speech),
      ...(isScore(test) ? [levelWords(test, speech), scoreWords(test, speech)] : []),
      ...(isReception(test) ? [speech.receptionOf(test.receptionThreshold)] : []),
      calendarDayOf(test.performedOn),
    ])
}

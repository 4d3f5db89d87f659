import type { ScoreTest } from '@/lib/board/records/speech-test.ts'
import type { WordScore } from '@/lib/speech/word-score.ts'

export const scoreOf = ({ right, items }: Pick<ScoreTest, 'right' | 'items'>): WordScore => ({
  correct: right,
  presented: items,
})

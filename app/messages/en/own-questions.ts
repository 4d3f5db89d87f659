import { whole } from './numbers.ts'

/** What becomes of the questions that somebody asked. */
export const ownQuestions = {
  title: (count: number) => `Your questions (${whole(count)})`,
  waits: (place: number, of: number) => `waits, ${whole(place)} of ${whole(of)}`,
  joined: (text: string) => `joined to "${text}"`,
  unnamed: 'without your name',
  go: (text: string) => `Go to: ${text}`,
  takeBack: 'Take it back',
  takeBackHint: 'The question goes from every page, with the replies to it. Looking back still shows it.',
  notice: {
    called: 'You are on: your question is called',
    answered: 'Your question is answered',
    joined: 'Your question was joined to one that asks the same',
    go: 'Go to it',
    dismiss: 'Seen',
  },
}

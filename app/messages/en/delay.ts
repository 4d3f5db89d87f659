import { oneDecimal } from './numbers.ts'

const seconds = (ms: number): string => oneDecimal(ms / 1000)
const minutesSeconds = (ms: number): string => {
  const whole = Math.floor(ms / 1000)
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}

/** How late a participant sees the operation, and where it stood at a moment. */
export const delay = {
  title: 'My video delay',
  why: 'Your picture comes later than the operation. Once your delay is known, what you ask, back or pin carries the moment that you were looking at.',
  how: 'The main screen shows a number that changes every 4 seconds. Watch it in the video, not on the page. Press when it changes, then type the number that came. Three times.',
  limits: (reactionMs: number) =>
    `Measured from the main screen to you, with your own reaction of about ${seconds(reactionMs)} s (common practice, no source). What the link from the theatre to the main screen adds is not in it.`,
  markIsDown: 'The number is not on the main screen yet. Ask the moderator to put it up.',
  putUp: 'Put the number on the main screen',
  takeDown: 'Take the number down',
  readingClock: 'Reading the server’s clock ...',
  clockFailed: 'The server’s clock could not be read.',
  tryAgain: 'Try again',
  press: 'It changed',
  pressHint: 'Space or Enter, or a tap',
  pressedHint: 'Pressed. If that was too early, press again at the next change.',
  number: 'Number that came',
  numberHint: '1 to 25',
  take: 'Take it',
  turn: (number: number, of: number) => `Press ${number} of ${of}`,
  taken: (ms: number) => `${seconds(ms)} s`,
  takenTitle: 'Pressed so far',
  problem: {
    'no-such-mark': 'The numbers go from 1 to 25. Look again, and press at the next change.',
    'before-the-change':
      'You pressed before that number came up on the main screen, so it cannot be a delay. Perhaps it is another number; press at the next change.',
    'longer-than-any-delay':
      'That would be a delay of more than 90 s, longer than any video link takes. Perhaps it is another number; press at the next change.',
  },
  result: (medianMs: number) => `Your video delay is ${seconds(medianMs)} s`,
  spread: (lowMs: number, highMs: number) =>
    `Median of three presses, from ${seconds(lowMs)} s to ${seconds(highMs)} s.`,
  clockError: (errorMs: number) => `The server’s clock is known to ±${Math.max(1, Math.ceil(errorMs))} ms.`,
  unsteady: 'The presses lie more than 2 s apart. Measure again.',
  measuredAt: (moment: string) => `Measured at ${moment}.`,
  again: 'Measure again',
  forget: 'Forget my delay',
  forgotten: 'What you write no longer carries the moment that you were looking at.',
  askedWhile: 'Asked while:',
  step: (number: number, title: string) => `step ${number}, ${title}`,
  afterStep: (number: number, title: string) => `after step ${number}, ${title}`,
  beforeFirst: 'before the first step',
  ago: (ms: number) => `${minutesSeconds(ms)} ago`,
  atClock: (clock: string) => `at ${clock}`,
} as const

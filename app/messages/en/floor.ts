import type { Ear, FrequencyHz } from '@/lib/units/frequencies.ts'

const frequency = (hz: FrequencyHz): string => (hz < 1000 ? `${hz} Hz` : `${hz / 1000} kHz`)
const band = (from: FrequencyHz, to: FrequencyHz): string =>
  from >= 1000 || to < 1000
    ? frequency(to).replace(/^[\d.]+/, `${from >= 1000 ? from / 1000 : from} to $&`)
    : `${frequency(from)} to ${frequency(to)}`
const number = new Intl.NumberFormat('en')
const ear: Record<Ear, string> = { right: 'Right ear', left: 'Left ear' }
const counted = (count: number, one: string, many: string): string =>
  `${number.format(count)} ${count === 1 ? one : many}`

/** Questions from the room and from remote experts. */
export const floor = {
  title: 'Floor',
  place: {
    frequency,
    band,
    pin: (of: Ear, hz: FrequencyHz, levelDbHl: number) => `${ear[of]}, ${frequency(hz)}, ${levelDbHl} dB HL`,
    range: (of: Ear, from: FrequencyHz, to: FrequencyHz) => `${ear[of]}, ${band(from, to)}`,
  },
  ask: {
    label: 'Ask a question',
    placeholder: 'One question, in your own words',
    submit: 'Ask',
    submitHint: 'Ctrl + Enter',
    asked: 'Your question is raised.',
    empty: 'Write the question first.',
  },
  text: {
    count: (used: number, limit: number) => `${number.format(used)} of ${number.format(limit)}`,
    tooLong: (used: number, limit: number) =>
      `${number.format(used)} characters; there is room for ${number.format(limit)}. Shorten it by ${number.format(used - limit)}. All you wrote is still here.`,
    empty: 'Write something first.',
  },
  anchor: {
    legend: 'About',
    chart: 'Ear and frequency',
    note: 'Note',
    step: 'Step',
    remove: 'Take the place away',
    ear: 'Ear',
    shape: 'Place',
    pin: 'One frequency',
    band: 'A band',
    frequency: 'Frequency',
    level: 'Level (dB HL)',
    from: 'From',
    to: 'To',
    use: 'Use this place',
    point: 'Point at the chart',
    pointing: 'Click or tap the audiogram at the place that you mean.',
    stopPointing: 'Stop pointing',
    bandOrder: 'A band ends above where it begins.',
    chooseNote: 'Decision note',
    chooseStep: 'Step',
    choose: 'Choose ...',
    emptyNote: 'Note without words yet',
    missing: 'no longer on this board',
    show: (label: string) => `Show on the audiogram: ${label}`,
    goTo: (label: string) => `Go to: ${label}`,
  },
  list: {
    nothingTitle: 'No question yet',
    nothing: 'What anybody asks stands here at once, for everyone.',
    group: (title: string, count: number) => `${title}: ${counted(count, 'question', 'questions')}`,
    more: (count: number, left: number) => `Show ${count} more (${number.format(left)} left)`,
    yours: 'Yours',
    inQueue: (place: number) => `Number ${place} in the queue`,
    find: 'Find in the questions',
  },
  notice: {
    called: 'Your question is called now',
    answered: 'Your question is answered',
    go: 'Go to it',
    dismiss: 'Seen',
  },
  thread: {
    replies: (count: number) => counted(count, 'reply', 'replies'),
    folded: (count: number) => `${count} folded in`,
    foldedTitle: 'Asked as well',
    backers: (count: number) =>
      count === 0 ? 'nobody else backs it' : `${counted(count, 'person backs', 'people back')} it`,
    backedBy: (names: string) => `Backed by ${names}`,
    answer: 'Answer',
    said: (name: string) => `said by ${name}`,
    written: (name: string) => `written by ${name}`,
    waitsForDesk: 'An answer is written; the moderator closes the question with it.',
    deferredTo: (visit: string) => `Until: ${visit}`,
    noReplies: 'No reply yet.',
  },
  act: {
    call: 'Call',
    answer: 'Answer',
    draftAnswer: 'Write the answer',
    defer: 'Defer',
    setAside: 'Set aside',
    reopen: 'Raise again',
    fold: 'Fold into ...',
    unfold: 'Take out again',
    reply: 'Reply',
    back: 'Back it',
    backed: 'Backed',
    reword: 'Change',
    screen: 'Main screen',
    up: 'One place up',
    down: 'One place down',
  },
  form: {
    answer: 'What was answered',
    saidBy: 'Who said it',
    saveAnswer: 'Answered',
    writeAnswer: 'Keep this answer',
    deferTo: 'Until when',
    deferHint: 'A visit, in words',
    deferSuggestions: ['First fitting', 'Three-month visit', 'Six-month visit', 'One-year visit', 'After imaging'],
    saveDefer: 'Defer',
    foldInto: 'The question that stands for both',
    foldHint: 'Type a word of it; questions with like words come first.',
    foldNone: 'No other question has these words.',
    reply: 'Your reply',
    saveReply: 'Reply',
    edit: 'Your question',
    saveEdit: 'Save',
  },
  done: {
    called: 'Called.',
    answered: 'Answer written.',
    deferred: 'Deferred.',
    'set-aside': 'Set aside.',
    raised: 'Raised again.',
    folded: 'Folded together.',
    unfolded: 'Stands by itself again.',
    onScreen: 'On the main screen.',
  },
  keys: {
    title: 'On a question (when it has the focus)',
    move: 'From question to question',
    order: 'One place up or down',
    open: 'Open or shut the thread',
    leave: 'Out of a form; what was typed is kept',
  },
}

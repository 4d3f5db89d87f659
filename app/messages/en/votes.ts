const people = (count: number): string => (count === 1 ? '1 person' : `${count} people`)
const percent = (value: number): string => `${Math.round(value)} %`

/** Votes of panel and team on a decision. */
export const votes = {
  title: 'Votes',
  open: 'Open a vote',
  question: 'Question of the vote',
  about: 'About the decision',
  aboutNothing: 'No decision note: a free question',
  option: (number: number) => `Option ${number}`,
  optionHint: 'Two to six, each different. Empty ones are left out.',
  asksConfidence: 'Ask how sure each person is, 50 to 100 %',
  start: 'Start the vote',
  missing: 'Write something first.',
  tooFew: 'A vote has at least two different options.',
  tooLong: (limit: number) => `At most ${limit} characters.`,
  started: 'The vote is open.',

  barTitle: (question: string) => `Vote: ${question}`,
  secret: 'Secret until the moderator closes the vote. Change yours until then.',
  cast: 'Cast my vote',
  howSure: 'How sure are you of it? One tap casts your vote.',
  sure: percent,
  notSaying: 'Vote without saying',
  youVoted: (option: string) => `You voted: ${option}`,
  youVotedSure: (option: string, confidence: number) => `You voted: ${option}, ${percent(confidence)} sure`,
  casting: 'Casting ...',
  watching: 'Panel and team are voting. The result is shown when the moderator closes the vote.',
  turnout: (count: number) => `${people(count)} voted so far`,
  close: 'Close and show the result',
  withdraw: 'Take the vote away',
  withdrawReally: 'Take it away with every ballot',
  closed: 'The vote is closed.',

  resultOf: (question: string) => `Result: ${question}`,
  votes: (count: number) => (count === 1 ? '1 vote' : `${count} votes`),
  confidence: (low: number, median: number, high: number) =>
    low === high ? `${percent(median)} sure` : `${percent(median)} sure (${percent(low)} to ${percent(high)})`,
  allConfidence: (low: number, median: number, high: number) =>
    `Median confidence of all ${percent(median)}, from ${percent(low)} to ${percent(high)}`,
  notVoted: (count: number) => (count === 0 ? 'Everybody voted' : `${people(count)} did not vote`),
  closedAt: (moment: string) => `Closed ${moment}`,
  aboutNote: (words: string) => `About: ${words}`,
  screen: 'Main screen',
  stillOpen: 'Open: vote on your board',
  kind: 'Vote',
  inTheatre: { open: 'Vote under way', closed: 'Vote' },
} as const

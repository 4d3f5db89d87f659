/** The page where a code from paper is typed. */
export const code = {
  title: 'Check a record code',
  explanation:
    'Type the code that stands beside a record on a printed sheet. Large and small letters are the same, dashes and spaces do not matter.',
  label: 'Record code',
  check: 'Check',
  problem: {
    length: (characters: number, expected: number) =>
      characters === 0
        ? `Type the ${expected} characters of the code.`
        : `A code has ${expected} characters; this has ${characters}. Compare it with the paper.`,
    character: (character: string, position: number) =>
      `“${character}” at place ${position} does not occur in a code. Compare it with the paper.`,
    check: 'A character is wrong or two are swapped: this code cannot exist. Compare it with the paper.',
  },
  answer: {
    current: 'Current',
    superseded: (day: string) => `Superseded on ${day}`,
    'entered-in-error': (day: string) => `Entered in error, marked on ${day}`,
    unknown: 'Unknown here',
  },
  current: 'The paper says what the board says, and this is the record to use.',
  superseded: 'The record was right when it was printed, but another one has taken its place. Do not use the paper.',
  'entered-in-error': 'The record should not have been entered. Do not use the paper.',
  unknown:
    'No record of this case has this code. The paper belongs to another case, or the record was changed after it was printed. Do not use the paper for this case.',
  because: (reason: string) => `Because: ${reason}`,
  replacedBy: (code: string) => `In its place stands ${code}.`,
  waiting: 'Waiting for the board ...',
  mayBeOld: (since: string) => `The link is lost since ${since}; the answer may be old.`,
  toHandout: 'Print a new handout',
} as const

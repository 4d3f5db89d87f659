/** What the surgeon reads from three metres. */
export const theatre = {
  title: 'Theatre view',
  lost: {
    link: (since: string) => `LINK LOST since ${since}`,
    store: (since: string) => `NOT STORING since ${since}`,
  },
  mayBeOld: 'What you see may be old',
  linking: 'Linking to the board',
  notAdmitted: 'This link is not admitted',
  inStep: (time: string) => `${time} in this step`,
  inTotal: (time: string) => `${time} in total`,
  now: 'Now',
  next: 'Next',
  nextNumber: (number: number) => `Next: step ${number}`,
  numbered: (number: number, step: string) => `${number}. ${step}`,
  openBefore: (steps: readonly string[], total: number) =>
    `${total === 1 ? 'Still' : `${total} still`} open before it: ${steps.join('; ')}`,
  lastStep: 'This is the last step',
  question: 'Question',
  noQuestion: 'No question is called',
  contingencies: 'Contingencies',
  noContingencies: 'None is watched',
  more: (count: number) => `${count} more on the board`,
  lastNote: { finding: 'Last finding', decision: 'Last decision' },
  noSteps: 'No steps have been written yet',
  asks: (name: string, role: string) => `${name}, ${role}`,
} as const

/** Leaving a computer that others use too. */
export const leave = {
  title: 'Leave this computer',
  lead: 'Signs you out of this browser and removes what it keeps of your cases, so that nobody who comes after you sees them.',
  known: (name: string, affiliation: string) => `In this browser you are ${name}, ${affiliation}.`,
  nobody: 'Nobody is signed in to this browser.',
  kept: (cases: number) =>
    cases === 0
      ? 'This browser keeps no copies of cases.'
      : `This browser keeps copies of ${cases === 1 ? 'one case' : `${cases} cases`} for work without a link.`,
  stays:
    'What you wrote on the board stays there. To come back you need a link: the one that you were sent, if it still works.',
  lost: (edits: number, drafts: number) =>
    `△ Not yet on the board: ${[
      ...(edits === 0 ? [] : [edits === 1 ? 'one change' : `${edits} changes`]),
      ...(drafts === 0 ? [] : [drafts === 1 ? 'one draft' : `${drafts} drafts`]),
    ].join(
      ' and ',
    )}. They are lost if you leave now. Open the board with a link to the network and wait for "stored", or copy the drafts.`,
  act: 'Sign out and remove everything',
  actDespite: 'Leave all the same, and lose them',
  back: 'Go back',
  done: 'You are signed out',
  doneHint: 'Nothing of your cases is kept in this browser any more.',
  held: 'You are signed out, but a copy is still here',
  heldHint: 'Another window of this browser has a case open. Close it, then remove again.',
  again: 'Remove again',
}

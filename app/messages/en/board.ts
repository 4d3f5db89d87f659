const people = (count: number): string => (count === 1 ? '1 person' : `${count} people`)
const drafts = (count: number): string => (count === 1 ? '1 draft' : `${count} drafts`)

/** The frame of a case's board: link, stored state, people, drafts. */
export const board = {
  pageTitle: 'Case',
  opening: 'Opening the case ...',
  cannotOpen: 'This case cannot be opened',
  toOverview: 'To the overview',
  revoked: 'Your access to this case was withdrawn. Ask the moderator for a new link.',
  notAllowed: 'You have no access to this case. Ask the moderator for a link, then open it in this browser.',
  unknownPerson: 'Somebody no longer listed',

  skipLinks: 'Skip links',
  panes: 'Panes of this case',
  pane: {
    hearing: 'Hearing',
    plan: 'Plan and forecast',
    steps: 'Steps',
    decisions: 'Decisions',
    floor: 'Floor',
  },
  paneShort: { hearing: 'Hearing', plan: 'Plan', steps: 'Steps', decisions: 'Decisions', floor: 'Floor' },
  contingenciesMet: (count: number) => (count === 1 ? '1 contingency met' : `${count} contingencies met`),
  questionsRaised: (count: number) => (count === 1 ? '1 question raised' : `${count} questions raised`),
  goToPane: (pane: string) => `Go to ${pane}`,
  boardKeys: 'Panes',
  headKeys: 'Case',
  showKeys: 'Keyboard',
  showDrafts: 'Your drafts',
  showPeople: 'Who is here',
  keysHint: 'Keys work while you are not typing. An item that has the focus goes to the main screen with s.',

  storedState: {
    stored: 'Stored',
    storing: 'Storing',
    'not-stored-offline': 'Offline, kept on this device',
    connecting: 'Connecting',
    offline: 'Offline',
    'refused-entry': 'No access',
  },
  offline: 'You are offline. Edits are kept on this device and sent when the link returns.',
  offlineWithoutCopy:
    'You are offline, and this browser keeps nothing for the page. Leave it open: edits are sent when the link returns.',
  noCopy: 'This browser keeps nothing for the page (private window or full disk). It works, but not offline.',
  refusedTitle: 'Not taken over.',

  openPeople: (listed: number, observers: number) =>
    `Who is here: ${people(listed)}, ${observers === 1 ? '1 observer' : `${observers} observers`}`,
  whoIsHere: 'Who is here',
  observers: (count: number) => (count === 1 ? 'One observer is watching.' : `${count} observers are watching.`),

  openDrafts: (count: number) => `${drafts(count)} of yours not taken over`,
  drafts: 'Your drafts',
  noDrafts: 'No drafts',
  noDraftsHint: 'What the board could not take over is kept here, on this device, until you deal with it.',
  draftOfRemoval: 'You removed this entry; it stands again.',
  retry: 'Try again',
  copy: 'Copy the text',
  discard: 'Discard',
  copied: 'Copied',
  notCopied: 'This browser did not allow copying. Select the text instead.',
  cannotRetry: 'This has no place to go any more: the entry is gone, or others are writing in it. Copy the text.',

  openMenu: 'More about this case',
  menu: 'This case',
  page: { screen: 'Main screen', theatre: 'Theatre view', handout: 'Handout', code: 'Check a record code' },
  pageHint: {
    screen: 'For the hall and the video mixer: only what the moderator shows.',
    theatre: 'For the surgeon: step, called question and contingencies, read at three metres.',
    handout: 'For print, with the record code of every test.',
    code: 'Type a code from paper: it says whether that record still stands.',
  },
  caution:
    'Decision support for licensed professionals, not a medical device. Estimates come from group data and a model; the device labelling, local codes and the treating team decide.',

  onScreenAudiogram: (ear: string) => `On screen: ${ear} ear`,
  onScreen: {
    audiogram: 'On screen: both ears',
    question: 'On screen: question',
    note: 'On screen: decision',
    contingency: 'On screen: contingency',
    forecast: 'On screen: forecast',
    steps: 'On screen: steps',
  },
  goToShown: 'Go to what is on the main screen',
  takeDown: 'Clear the main screen',

  caseDetails: 'Case details',
  describeCase: 'Describe the case',
  details: {
    pseudonym: 'Pseudonym',
    pseudonymHint: 'Never a name, a birth date or a record number.',
    ear: 'Ear to operate',
    age: 'Age, years',
    sex: 'Sex',
    sexes: { female: 'Female', male: 'Male', 'not-stated': 'Not stated' },
    summary: 'Summary',
    phase: 'Phase',
    consent: 'Consent to broadcasting',
    consentHint: 'Recorded before a case goes to theatre, with your name and the time.',
    consents: { none: 'Not recorded', recorded: 'Recorded', withdrawn: 'Withdrawn' },
    how: 'How it was given or withdrawn',
    save: 'Save',
  },
} as const

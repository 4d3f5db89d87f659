/** The list of operative steps. */
export const steps = {
  paneTitle: 'Steps of the operation',
  none: 'No steps yet',
  noneHintEdit: 'Add a step, or begin with the usual list of an approach.',
  noneHintRead: 'The operating team or the moderator writes the steps.',
  progress: (done: number, total: number) => `${done} of ${total} done`,
  check: 'Check',
  hazard: 'Hazard',
  title: 'Step',
  add: 'Add step',
  addTitle: 'New step',
  usual: 'Usual list',
  usualTitle: 'Add the usual steps of an approach',
  usualStatus:
    'From memory, unconfirmed: generic textbook steps. Adapt them; the labelling of the device always prevails.',
  usualCount: (count: number) => `${count} steps`,
  usualAdded: (count: number) => `${count} steps added`,
  suggested: 'reaches the planned site',
  approach: {
    antrotomy: 'Antrotomy to the body of the incus',
    'posterior-tympanotomy': 'Posterior tympanotomy',
    'round-window': 'Posterior tympanotomy to the round window',
    transcanal: 'Transcanal or combined route',
    skull: 'Bone-conduction device on the skull',
  },
  move: { 'under-way': 'Begin', done: 'Done', 'left-out': 'Leave out', ahead: 'Back to ahead' },
  reopen: 'Reopen',
  moveNamed: (move: string, step: string) => `${move}: ${step}`,
  up: (step: string) => `Move up: ${step}`,
  down: (step: string) => `Move down: ${step}`,
  edit: (step: string) => `Edit: ${step}`,
  editWord: 'Edit',
  remove: 'Remove step',
  removeConfirm: 'Remove this step for everyone?',
  editTitle: 'Edit step',
  closeEdit: 'Close',
  putOnScreen: 'Put on the main screen',
  elapsed: (minutes: number) =>
    minutes < 1
      ? 'under a minute'
      : minutes < 60
        ? `${minutes} min`
        : `${Math.floor(minutes / 60)} h ${minutes % 60} min`,
  took: (time: string) => `took ${time}`,
  running: (time: string) => `for ${time}`,
  keys: 'Keys on a step: Enter begins or finishes it, x leaves it out, b puts it back, Alt+↑ or Alt+↓ moves it, e edits it.',
  keysGroup: 'Steps',
  movedUp: (step: string, place: number) => `${step} is now number ${place}`,
} as const

import type { PointFault } from '@/lib/interchange/point-text.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

const minus = (value: number | string): string => String(value).replace('-', '−')
const decimals = (value: number): string => minus(Math.round(value * 100) / 100)

export const pointFaults: { readonly [C in PointFault['code']]: (fault: Extract<PointFault, { code: C }>) => string } =
  {
    'not-a-level': ({ text }) =>
      `"${text}" is not a level. Write a number such as 45 or −5, "NR 110" for no response at 110, or "CNT" for could not test.`,
    'wrong-unit': ({ unit }) => `"${unit}" is not the unit of this column. Give the level in dB HL.`,
    'level-out-of-range': ({ value, low, high }) =>
      `${decimals(value)} dB HL is out of range. A level lies from ${minus(low)} to ${high} dB HL.`,
    'no-response-needs-level': () =>
      'At which level was there no response? Write it first: the usual limit of an audiometer is not known here.',
  }

const pointFault = (fault: PointFault): string => (pointFaults[fault.code] as (fault: PointFault) => string)(fault)

/** The hearing pane: audiogram, tests, entry, measures. */
export const hearing = {
  title: 'Hearing',
  chart: 'Audiogram',
  ears: {
    legend: 'Ears on the chart',
    together: 'Both',
    apart: 'Side by side',
    right: 'Right',
    left: 'Left',
  },
  extended: 'Up to 16 kHz',
  others: 'With sound field and aided',
  alsoDrawn: 'Also drawn',
  numbers: 'Numbers',
  modes: {
    legend: 'On the chart',
    look: 'Look',
    plot: 'Enter',
    pin: 'Pin or band',
  },
  hints: {
    plot: 'Press where the threshold lies, move to correct it, let go to enter it. Press a sign again for no response, drag it to move it.',
    pin: 'Press a place for a pin; press at one frequency and let go at another for a band.',
    picking: 'The question asks for a place: press it here. For a band, press at one frequency and let go at another.',
  },
  brush: {
    legend: 'Entering',
    half: 'Half-octaves too',
    lastEntered: (what: string) => `Entered: ${what}`,
    noResponse: 'No response',
    heard: 'Heard',
    remove: 'Take away',
  },
  noTest: {
    title: (ear: Ear) => `No test of the ${ear} ear yet`,
    text: 'Enter one by hand or import a table.',
  },
  test: {
    heading: 'Tests',
    none: 'No hearing test has been entered.',
    enter: 'New test',
    import: 'Import',
    verify: 'Verify',
    supersede: 'Mark superseded',
    error: 'Mark entered in error',
    reinstate: 'Make current again',
    entered: (name: string, day: string) => `Entered by ${name}, ${day}`,
    imported: (name: string, day: string) => `Imported by ${name}, ${day}`,
    closed: (name: string, day: string, reason: string) => `${name}, ${day}: ${reason}`,
    closedForEditing:
      'Verified, so its numbers are closed. To correct them, enter a new test that supersedes this one.',
    notCurrent: 'Not current, so its numbers are closed.',
    done: 'Done.',
    verifyTitle: 'Verify this test',
    verifyText:
      'You confirm that these numbers are those of the audiogram and that ear, condition and date are right. After that they are closed.',
    verifyEmpty: 'There is nothing to verify yet: no threshold has been entered.',
    device: (device: string) => `Device: ${device}`,
    note: (note: string) => `Note: ${note}`,
  },
  reason: {
    label: 'Reason',
    hint: 'Stands in the record beside the test.',
    missing: 'Give the reason first.',
    supersede: 'Mark this test as superseded',
    error: 'Mark this test as entered in error',
    errorText: 'An entry in error stays in the record, struck through, and cannot become current again.',
    reinstate: 'Make this test current again',
    reinstateText: 'The test that is current now will be superseded by it.',
    submit: 'Mark it',
  },
  newTest: {
    title: 'New hearing test',
    ear: 'Ear',
    condition: 'Condition',
    performedOn: 'Date of the test',
    airTransducer: 'Earphones',
    boneTransducer: 'Vibrator',
    unknown: 'not known',
    transducers: {
      'supra-aural': 'Supra-aural',
      'circum-aural': 'Circum-aural',
      insert: 'Insert',
      'bone-mastoid': 'Mastoid',
      'bone-forehead': 'Forehead',
    },
    device: 'Device and its state',
    deviceHint: 'Device class and programme, no names',
    note: 'Note',
    reason: 'Why the current test no longer counts',
    reasonHint: (sentence: string) => `Will be superseded: ${sentence}`,
    copyPoints: 'Begin with the numbers of the current test',
    submit: 'Enter the test',
    missingDate: 'Give the date of the test.',
    futureDate: 'This day has not come yet.',
  },
  grid: {
    label: (sentence: string) => `Thresholds, ${sentence}`,
    corner: 'dB HL',
    row: { air: 'AC', bone: 'BC', 'sound-field': 'SF', aided: 'Aided' },
    masked: 'masked',
    unmasked: 'not masked',
    hint: 'Arrow keys move. Type a level, Enter takes it. n: no response. x: could not test. Delete: not tested.',
    noResponse: 'No response (n)',
    couldNotTest: 'Could not test (x)',
    clear: 'Not tested (Delete)',
    minus: '±',
    cell: (row: string, frequency: number) => `${row}, ${frequency} Hz`,
    changedBy: (name: string) => `changed by ${name}`,
    nowReads: (value: string, name: string) =>
      `Meanwhile ${name} has entered ${value} here. Enter takes yours, Escape theirs.`,
    offGrid: 'between the 5 dB steps',
    beyond: (limit: number) => `above ${limit} dB HL, the usual limit of an audiometer here`,
    typing: (names: string) => `${names} is entering numbers here too`,
    somebody: 'somebody',
  },
  pointFault,
  repeat: {
    label: 'Repeat at 1 kHz, AC (dB HL)',
    hint: 'If the threshold was sought a second time in this ear.',
    fault: (fault: PointFault | { readonly code: 'not-heard' }): string =>
      fault.code === 'not-heard' ? 'Write the level that was heard, or leave it empty.' : pointFault(fault),
  },
  notes: {
    heading: 'On this audiogram',
    none: 'No pin and no band here.',
    add: 'Add a pin or band',
    edit: 'Change',
    remove: 'Remove',
    removeTitle: 'Remove this pin?',
    removeText: (text: string) => `"${text}" is taken off the audiogram for everyone.`,
    place: {
      pin: (ear: Ear, frequency: number, level: number) =>
        `${ear === 'right' ? 'Right' : 'Left'} ear, ${frequency} Hz, ${minus(level)} dB HL`,
      band: (ear: Ear, from: number, to: number) => `${ear === 'right' ? 'Right' : 'Left'} ear, ${from} to ${to} Hz`,
    },
    dialogTitle: 'Pin or band',
    kind: 'What',
    kinds: { pin: 'Pin at one frequency', band: 'Band of frequencies' },
    frequency: 'Frequency (Hz)',
    level: 'Level (dB HL)',
    from: 'From (Hz)',
    to: 'To (Hz)',
    text: 'Text',
    textMissing: 'Write what there is to see.',
    textTooLong: (used: number, most: number) =>
      `${used.toLocaleString('en')} characters; there is room for ${most}. Nothing you wrote is lost.`,
    bandOrder: 'A band ends above where it begins.',
    levelRange: 'A level lies from −20 to 130 dB HL.',
    submit: 'Put it there',
  },
  screen: 'Main screen',
  screenHint: 'Put this audiogram on the main screen (key s)',
  onScreen: 'On the main screen.',
  export: 'Save current tests as CSV',
}

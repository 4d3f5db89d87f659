import type { CellFault, CsvWarning, FileFault } from '@/lib/interchange/csv-faults.ts'
import type { PointFault } from '@/lib/interchange/point-text.ts'
import type { Ear } from '@/lib/units/frequencies.ts'

const minus = (value: number | string): string => String(value).replace('-', '−')
const decimals = (value: number): string => minus(Math.round(value * 100) / 100)
const plural = (count: number, one: string, many: string): string =>
  `${count.toLocaleString('en')} ${count === 1 ? one : many}`

const pointFaults: { readonly [C in PointFault['code']]: (fault: Extract<PointFault, { code: C }>) => string } = {
  'not-a-level': ({ text }) =>
    `"${text}" is not a level. Write a number such as 45 or −5, "NR 110" for no response at 110, or "CNT" for could not test.`,
  'wrong-unit': ({ unit }) => `"${unit}" is not the unit of this column. Give the level in dB HL.`,
  'level-out-of-range': ({ value, low, high }) =>
    `${decimals(value)} dB HL is out of range. A level lies from ${minus(low)} to ${high} dB HL.`,
  'no-response-needs-level': () =>
    'At which level was there no response? Write it first: the usual limit of an audiometer is not known here.',
}

const pointFault = (fault: PointFault): string => (pointFaults[fault.code] as (fault: PointFault) => string)(fault)

type CsvFaultSentences = {
  readonly [C in Exclude<CellFault['code'], PointFault['code']>]: (fault: Extract<CellFault, { code: C }>) => string
}
const cellFaults: CsvFaultSentences = {
  'unknown-ear': ({ text }) => `"${text}" is not an ear. Write right or left.`,
  'unknown-route': ({ text }) => `"${text}" is not a route. Write air, bone, sound-field or aided.`,
  'unknown-masking': ({ text }) => `"${text}" does not say whether the other ear was masked. Write yes or no.`,
  'unknown-response': ({ text }) => `"${text}" is not a response. Write heard, no-response or could-not-test.`,
  'unknown-frequency': ({ text }) =>
    `"${text}" is not an audiometric frequency in Hz. Known are 125 to 8000 Hz with half-octaves, and 9000 to 16000 Hz.`,
  'unknown-condition': ({ text }) => `"${text}" is not a condition. Write unaided, sound-field or aided.`,
  'not-a-date': ({ text }) => `"${text}" is not a date. Write year-month-day, for example 2026-05-31.`,
  'condition-mismatch': ({ route, condition }) =>
    `A test in condition "${condition}" has no points by route "${route}".`,
  'no-level': () => 'The level is missing. Leave the whole row out when the frequency was not tested.',
  'level-with-could-not-test': ({ text }) =>
    `"${text}" stands beside "could not test". Only one of the two can be true.`,
  'duplicate-point': ({ otherRow }) => `Row ${otherRow} gives the same point. Only one of the two can stand.`,
  'extra-cells': ({ cells, columns }) =>
    `The row has ${cells} cells, the header ${columns}. A separator may be inside a value.`,
  'open-quote': () => 'A quotation mark opens here and is not closed.',
}

const fileFaults: { readonly [C in FileFault['code']]: (fault: Extract<FileFault, { code: C }>) => string } = {
  empty: () => 'There is no row below a header. The first row names the columns, each further row is read.',
  'too-long': ({ characters, most }) =>
    `The text has ${characters.toLocaleString('en')} characters; one import takes ${most.toLocaleString('en')} at most.`,
  'too-many-rows': ({ rows, most }) =>
    `There are ${rows.toLocaleString('en')} rows; one import takes ${most.toLocaleString('en')} at most. Import the tests of one case only, or in parts.`,
  'missing-column': ({ columns, found }) =>
    `Missing: ${columns.join(', ')}. Found: ${found.map((title) => `"${title.slice(0, 40)}"`).join(', ')}.`,
  'column-twice': ({ column }) => `The column "${column}" stands there twice.`,
  'wrong-unit-column': ({ column, expected }) =>
    `"${column}" is in another unit. This board reads ${expected === 'level_db_hl' ? 'hearing levels in dB HL' : 'frequencies in Hz'}; convert the column and name it ${expected}.`,
  'unknown-frequency-column': ({ column }) => `"${column}" is not an audiometric frequency.`,
}

const warnings: { readonly [C in CsvWarning['code']]: (warning: Extract<CsvWarning, { code: C }>) => string } = {
  'unknown-column': ({ column }) => `The column "${column}" is not read.`,
  'unit-assumed': ({ column }) => `"${column}" names no unit: taken as dB HL.`,
  'masking-assumed': () => 'There is no column "masked": every point is taken as not masked.',
  'off-grid': ({ points }) =>
    `${plural(points, 'level lies', 'levels lie')} between the 5 dB steps. Accepted and marked.`,
}

const ofCode = <T extends { code: string }>(sentences: unknown, fact: T): string =>
  (sentences as Record<string, (fact: T) => string>)[fact.code]?.(fact) ?? fact.code

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
  import: {
    title: 'Import hearing tests',
    text: 'Paste a table, or drop a CSV file here',
    choose: 'Choose a file',
    hint: 'One row a point: ear, route, masked, frequency_hz, level_db_hl, response [, condition, date]. Or one row an ear and route, with a column for each frequency.',
    read: (file: string, encoding: string) => `${file}, read as ${encoding}`,
    date: 'Date of rows without one',
    reason: 'Why earlier current tests no longer count',
    reasonSuggestion: (day: string) => `Superseded by the test of ${day}`,
    fileFault: (fault: FileFault) => ofCode(fileFaults, fault),
    cellFault: (fault: CellFault) => ofCode({ ...pointFaults, ...cellFaults }, fault),
    warning: (warning: CsvWarning) => ofCode(warnings, warning),
    swapped:
      'Right and left may be exchanged: these ears fit the other ears of the current tests far better than their own.',
    swappedCheck: 'I have compared the ears with the source.',
    found: (points: number, rows: number) => `${plural(points, 'point', 'points')} in ${plural(rows, 'row', 'rows')}`,
    faults: (count: number) => plural(count, 'fault', 'faults'),
    row: 'Row',
    column: 'Column',
    problem: 'Fault',
    wholeRow: 'whole row',
    moreFaults: (count: number) => `and ${plural(count, 'more fault', 'more faults')}`,
    preview: 'What will be entered',
    willSupersede: (sentence: string) => `supersedes: ${sentence}`,
    goodRows: (count: number) => `Leave the faulty rows out and import ${plural(count, 'point', 'points')} only`,
    submit: (count: number) => `Import ${plural(count, 'test', 'tests')}`,
    done: (count: number) => `${plural(count, 'test', 'tests')} imported.`,
    nothingYet: 'Nothing to read yet.',
  },
  export: 'Save current tests as CSV',
}

/**
 * Text that may identify a patient: pointed out to its writer before it is posted, never refused. Patterns are common
 * practice, no source; they prefer a needless question to a missed name.
 */
export type IdentifyingKind = 'name-and-birth-date' | 'record-number' | 'phone-number' | 'postal-address'

export interface IdentifyingPart {
  readonly kind: IdentifyingKind
  /** the words that look identifying */
  readonly excerpt: string
}

const months =
  'jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sep(?:t(?:ember)?)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?'
const date = `(?:\\d{1,2}[./-]\\d{1,2}[./-](?:\\d{4}|\\d{2})|(?:19|20)\\d{2}[./-]\\d{1,2}[./-]\\d{1,2}|\\d{1,2}(?:st|nd|rd|th)?\\s+(?:${months})\\s+\\d{4}|(?:${months})\\s+\\d{1,2}(?:st|nd|rd|th)?,?\\s+\\d{4})`
const datePattern = new RegExp(`(?<!\\d)${date}(?!\\d)`, 'gi')
const labelledBirthDate = new RegExp(
  `(?:\\bborn(?:\\s+on)?|\\bd\\.?o\\.?b\\.?|\\bdate of birth|\\bbirth ?date|\\bbirthday|\\*)[\\s:]*${date}`,
  'gi',
)
const namePattern = /(?<![\p{L}\d])\p{Lu}[\p{Ll}'’-]+(?:\s+\p{Lu}\.)?,?\s+\p{Lu}[\p{L}'’-]+(?![\p{L}\d])/gu

/** How far a date may stand from a name and still be taken for its birth date, characters. */
const nearby = 40

/** Words of the trade that begin with a capital in headings and lists without naming anybody. */
const tradeWords: ReadonlySet<string> = new Set(
  `air aided active april audiogram august bone both canal conduction control date december direct discharge ear
  february final first follow follow-up hearing head implant incus january july june left long malleus march mastoid may
  middle next november october operation oval plan process pure question question: revision right round second
  september sound speech stapes step superseded surgery test the theatre third threshold tone unaided visit
  window`.split(/\s+/),
)

const recordNumberPatterns = [
  /\b(?:mrn|nhs|(?:patient|hospital|medical|health|case|chart|file|insurance)(?:\s+(?:record|card|file))?\s*(?:id|no\.?|nr\.?|number|#)|record\s+(?:no\.?|number))\s*[:#]?\s*[a-z]{0,3}[-\s]?\d[\d\s/-]{2,}\d/gi,
  /(?<![\d.,+-])\d{7,}(?![\d.,]\d|\d)/g,
]

const phonePatterns = [
  /(?<![\d.])(?:\+|00)\d{1,3}[\s./-]?(?:\(0\))?[\s./-]?\d(?:[\s./()-]{0,2}\d){5,12}(?!\d)/g,
  /(?<![\d.,])\(?0\d{1,4}\)?[\s./-]{1,2}\d(?:[\s./-]?\d){4,9}(?!\d)/g,
  /(?<![\d.,])0\d{9,11}(?!\d)/g,
  /\b(?:tel(?:ephone)?|phone|mobile|cell|fax)\b\.?\s*(?:no\.?|number)?\s*[:#]?\s*\(?\d(?:[\s./()-]{0,2}\d){4,13}/gi,
]

const streetWord =
  'street|st\\.|road|rd\\.|avenue|ave\\.|lane|drive|close|square|court|boulevard|blvd\\.|terrace|crescent|way'
const addressPatterns = [
  new RegExp(`(?<![\\d.,])\\d{1,4}[a-z]?,?\\s+(?:\\p{Lu}[\\p{L}'’.-]*\\s+){1,3}(?:${streetWord})(?![\\p{Ll}])`, 'giu'),
  /\p{Lu}[\p{L}-]*(?:straße|strasse|str\.|weg|gasse|platz|allee|laan|straat|vägen|gatan|gade|vej)\s+\d{1,4}[a-z]?(?!\d)/gu,
  /(?<![\d.,])\d{1,4}[a-z]?,?\s+(?:rue|avenue|boulevard|place|via|piazza|calle|avenida)\s+(?:\p{L}+\s+){0,3}\p{Lu}\p{L}+/gu,
  /\b[A-Z]{1,2}\d[A-Z\d]?\s\d[A-Z]{2}\b/g,
  /\b(?:A|B|CH|D|DK|F|FI|I|L|NL|SE)-\d{4,5}\s+\p{Lu}\p{L}+/gu,
]

/** Every part of a text that may identify somebody, in order of kind; empty for text that seems free of it. */
export function identifyingParts(text: string): IdentifyingPart[] {
  const parts: IdentifyingPart[] = []
  const add = (kind: IdentifyingKind, excerpts: readonly string[]) =>
    parts.push(...[...new Set(excerpts)].map((excerpt) => ({ kind, excerpt: excerpt.trim() })))
  const phones = matches(text, phonePatterns).filter((found) => !isDate(found))
  add('name-and-birth-date', [...matches(text, [labelledBirthDate]), ...namesWithDate(text)])
  add(
    'record-number',
    matches(text, recordNumberPatterns).filter((found) => !phones.some((phone) => phone.includes(found))),
  )
  add('phone-number', phones)
  add('postal-address', matches(text, addressPatterns))
  return parts
}

/** Whether a text should be pointed out to its writer before it is posted. */
export const looksIdentifying = (text: string): boolean => identifyingParts(text).length > 0

const matches = (text: string, patterns: readonly RegExp[]): string[] =>
  patterns.flatMap((pattern) => [...text.matchAll(pattern)].map(([found]) => found))

const isDate = (found: string): boolean => new RegExp(`^${date}$`, 'i').test(found.trim())

function namesWithDate(text: string): string[] {
  const dates = [...text.matchAll(datePattern)]
  if (dates.length === 0) return []
  return [...text.matchAll(namePattern)]
    .filter(([found]) => !isTradeTerm(found))
    .flatMap((name) => dates.filter((found) => distance(name, found) <= nearby).map(() => name[0]))
}

const isTradeTerm = (found: string): boolean =>
  found
    .toLowerCase()
    .split(/[\s,]+/)
    .some((word) => tradeWords.has(word))

function distance(a: RegExpExecArray, b: RegExpExecArray): number {
  const [first, second] = a.index <= b.index ? [a, b] : [b, a]
  return second.index - (first.index + first[0].length)
}

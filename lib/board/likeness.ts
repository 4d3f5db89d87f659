/** The words of a text, lower case, without signs; numbers count as words ("4 kHz" is two). */
export function wordsOf(text: string): ReadonlySet<string> {
  return new Set(text.toLocaleLowerCase('en').match(/[\p{L}\p{N}]+/gu) ?? [])
}

/**
 * How alike two texts are by the words that they share, regardless of order and repetition.
 * @returns 0 (no word in common, or a text without words) to 1 (the same words)
 * Method: coincidence index 2c / (a + b), L. R. Dice, Ecology 26 (1945) 297-302.
 */
export function likeness(a: ReadonlySet<string>, b: ReadonlySet<string>): number {
  if (a.size === 0 || b.size === 0) return 0
  const common = [...a].filter((word) => b.has(word)).length
  return (2 * common) / (a.size + b.size)
}

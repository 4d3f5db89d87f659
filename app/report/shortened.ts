/** One line of at most so many characters: on a page that has one side, long words are cut where they stand in full elsewhere. */
export function shortened(text: string, most: number): string {
  const line = text.replaceAll(/\s+/g, ' ').trim()
  return line.length <= most ? line : `${line.slice(0, most - 1).trimEnd()}…`
}

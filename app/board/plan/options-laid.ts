/** Letters of the options on the chart. */
export const letters = ['A', 'B', 'C'] as const

/** More lines than these cannot be told apart on one audiogram. */
export const mostLaid = letters.length

/** Lays an option on the chart, or takes it away; at most three stay. */
export const toggled = (laid: readonly string[], key: string): readonly string[] => {
  if (laid.includes(key)) return laid.filter((other) => other !== key)
  return laid.length < mostLaid ? [...laid, key] : laid
}

const formats = new Map<string, Intl.NumberFormat>()

function formatOf(least: number, most: number): Intl.NumberFormat {
  const key = `${least}-${most}`
  const made =
    formats.get(key) ?? new Intl.NumberFormat('fr-FR', { minimumFractionDigits: least, maximumFractionDigits: most })
  formats.set(key, made)
  return made
}

/** A true minus, and none before a zero. */
const minus = (text: string): string => text.replace('-', '−').replace(/^−(0(?:,0+)?)$/, '$1')

/** With at most so many decimals: "12,5". */
export const decimals = (value: number, most = 2): string => minus(formatOf(0, most).format(value))

/** With exactly so many decimals: "0,40". */
export const fixed = (value: number, digits: number): string => minus(formatOf(digits, digits).format(value))

export const whole = (value: number): string => decimals(value, 0)
export const signed = (value: number, most = 0): string => {
  if (!Number.isFinite(value)) return value > 0 ? '∞' : '−∞'
  const text = decimals(value, most)
  return text === '0' || text.startsWith('−') ? text : `+${text}`
}

/** Nought and one are singular in French. */
export const counted = (count: number, one: string, many: string): string => `${whole(count)} ${count < 2 ? one : many}`

export const percent = (proportion: number): string => `${whole(100 * proportion)} %`
export const hertz = (frequency: number): string =>
  frequency < 1000 ? `${frequency} Hz` : `${decimals(frequency / 1000)} kHz`
export const kilohertz = (frequencies: readonly number[]): string =>
  `${frequencies.map((frequency) => decimals(frequency / 1000)).join(' ; ')} kHz`
export const lowered = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
export const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} et ${parts.at(-1)}`

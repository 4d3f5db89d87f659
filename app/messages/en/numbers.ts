let grouping: Intl.NumberFormat | undefined
let tenths: Intl.NumberFormat | undefined

/** With a comma between thousands. Making a format takes a slow phone tens of milliseconds, so it waits to be wanted. */
export const whole = (value: number): string => {
  grouping ??= new Intl.NumberFormat('en')
  return grouping.format(value)
}

/** With one decimal: "2.0". */
export const oneDecimal = (value: number): string => {
  tenths ??= new Intl.NumberFormat('en', { minimumFractionDigits: 1, maximumFractionDigits: 1 })
  return tenths.format(value)
}

/** Colours of the file: those of paper in app/tokens.css, which a PDF file cannot read. */
export const ink = {
  text: '#16211d',
  quiet: '#48514b',
  rule: '#c9cdc9',
  strong: '#16211d',
  ear: { right: '#a8201a', left: '#1d4f9f' },
} as const

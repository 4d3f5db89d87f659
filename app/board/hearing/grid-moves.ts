/** A cell of the grid by row and column. */
export interface Cell {
  readonly row: number
  readonly column: number
}

/** Where a key leads inside a grid; undefined for keys that do not move. Edges hold. */
export function moved({ row, column }: Cell, key: string, rows: number, columns: number): Cell | undefined {
  const within = (value: number, count: number) => Math.max(0, Math.min(count - 1, value))
  switch (key) {
    case 'ArrowLeft':
      return { row, column: within(column - 1, columns) }
    case 'ArrowRight':
      return { row, column: within(column + 1, columns) }
    case 'ArrowUp':
      return { row: within(row - 1, rows), column }
    case 'ArrowDown':
      return { row: within(row + 1, rows), column }
    case 'Home':
      return { row, column: 0 }
    case 'End':
      return { row, column: columns - 1 }
    default:
      return undefined
  }
}

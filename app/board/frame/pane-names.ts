/** The panes of a board, in the order of their keys 1 to 5. */
export const paneNames = ['hearing', 'plan', 'steps', 'decisions', 'floor'] as const
export type PaneName = (typeof paneNames)[number]

/** The board as it is, or as it was at an earlier moment: both are on the page while somebody looks back. */
export type When = 'now' | 'earlier'

export const paneId = (name: PaneName, when: When): string => `${when === 'now' ? 'pane' : 'earlier-pane'}-${name}`

/** How many panes stand side by side. */
export type Columns = 1 | 2 | 3

/** Panes with a column of their own; the others share one and take turns in it. */
const standing: Record<Columns, readonly PaneName[]> = {
  1: [],
  2: ['hearing'],
  3: ['hearing', 'floor'],
}

export const standsAlone = (name: PaneName, columns: Columns): boolean => standing[columns].includes(name)

export const sharedPanes = (columns: Columns): PaneName[] => paneNames.filter((name) => !standsAlone(name, columns))

/** The pane that the shared column shows: the chosen one, or its first if that one stands by itself. */
export function shownInTurn(chosen: PaneName, columns: Columns): PaneName {
  const shared = sharedPanes(columns)
  return shared.includes(chosen) ? chosen : (shared[0] ?? chosen)
}

export const isShown = (name: PaneName, chosen: PaneName, columns: Columns): boolean =>
  standsAlone(name, columns) || shownInTurn(chosen, columns) === name

/** What a board has to know before it can be opened. @param id of the case, as it stands in an address */
export const openingPaths = (id: string) => ['/api/me', `/api/cases/${id}`, `/api/cases/${id}/people`] as const

/** Address of the socket by which a page follows a programme: this, then the programme's id. */
export const followPath = '/follow/'

/** How often the server says on it that the link stands, when nothing else is to be said. */
export const followTickMs = 5_000

/** The frame of a case's board: link, stored state, people, drafts. */
export const board = {
  opening: 'Opening the case ...',
  cannotOpen: 'This case cannot be opened',
  toOverview: 'To the overview',
  revoked: 'Your access to this case was withdrawn. Ask the moderator for a new link.',
  notAllowed: 'You have no access to this case. Ask the moderator for a link, then open it in this browser.',
  unknownPerson: 'Somebody no longer listed',
}

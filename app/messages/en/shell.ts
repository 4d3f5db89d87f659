/** What every page shares. */
export const shell = {
  productName: 'Promontory',
  productPurpose: 'A shared case-conference board for ear surgery with implantable hearing devices',
  switchTheme: (to: 'clinic' | 'theatre') =>
    to === 'theatre' ? 'Dim theme for the theatre' : 'Light theme for the clinic',
  separated: (parts: readonly string[]) => parts.join('; '),
  close: 'Close',
  cancel: 'Cancel',
  dismiss: 'Dismiss',
  skipTo: (place: string) => `Skip to ${place}`,
  noLink: 'The server cannot be reached. Check the network, then try again.',
  unreadableAnswer: 'The server answered in a way that this page does not understand. Reload the page.',
  serverTrouble: (status: number) => `The server could not do this (${status}). Try again in a moment.`,
  loading: 'Loading ...',
  leave: 'Leave this computer',
  language: 'Language',
  languageNotFetched: 'This language could not be fetched. Check the network, then choose it again.',
}

/** What every page shares. */
export const shell = {
  productName: 'Promontory',
  productPurpose: 'A shared case-conference board for ear surgery with implantable hearing devices',
  switchTheme: (to: 'clinic' | 'theatre') =>
    to === 'theatre' ? 'Dim theme for the theatre' : 'Light theme for the clinic',
  close: 'Close',
  cancel: 'Cancel',
  dismiss: 'Dismiss',
  skipTo: (place: string) => `Skip to ${place}`,
  loading: 'Loading ...',
}

/** What a forecast learns from the team's own series. */
export const learning = {
  title: 'Own series',
  use: 'Learn from our own series',
  loading: 'Loading the results of the own series',
  off: 'Published evidence alone.',
  noOption: 'Choose a device class and coupling site in the plan.',
  speaking: (n: number) =>
    n === 0
      ? 'No other ear of yours with this option has a result yet: published evidence alone.'
      : n === 1
        ? '1 ear of your own with this option speaks beside the published mean, which counts as ten.'
        : `${n} ears of your own with this option speak beside the published mean, which counts as ten.`,
  few: 'Fewer than five: they move the forecast little, and should.',
  sealing: 'What you seal or freeze leaves the series out, so that everybody can compute it again.',
  again: 'Try again',
}

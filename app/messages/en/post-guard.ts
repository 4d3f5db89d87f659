/** Before a text is posted that looks as if it identified a patient. */
export const postGuard = {
  title: 'Does this identify somebody?',
  explanation:
    'Everyone on this case would read it, and the log keeps it. Use the pseudonym, and leave out what points to a person.',
  kind: {
    'name-and-birth-date': 'looks like a name or a birth date',
    'record-number': 'looks like a record number',
    'phone-number': 'looks like a phone number',
    'postal-address': 'looks like an address',
  },
  change: 'Change the text',
  postAnyway: 'It identifies nobody, post it',
} as const

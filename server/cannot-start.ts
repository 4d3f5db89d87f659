/** Something outside this program that keeps it from starting; the message is the one line to print. */
export class CannotStart extends Error {
  override name = 'CannotStart'
}

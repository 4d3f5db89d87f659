/** Why bytes are not taken as a photograph. */
export type PictureFault =
  /** neither PNG nor JPEG */
  | 'unknown-type'
  /** a sort of PNG or JPEG that is not taken: moving, interlaced, other than 8 bits, colours for print */
  | 'unsupported-sort'
  | 'cut-short'
  /** the parts do not have the form that the standard gives them */
  | 'damaged'
  /** something follows the end of the picture */
  | 'trailing-data'
  | 'too-many-pixels'

/** Ends the reading of a picture; `clean-picture.ts` catches it. */
export class UncleanPicture extends Error {
  readonly fault: PictureFault
  constructor(fault: PictureFault) {
    super(fault)
    this.fault = fault
  }
}

/** @throws UncleanPicture with this fault unless the condition holds */
export function need(holds: boolean, fault: PictureFault): asserts holds {
  if (!holds) throw new UncleanPicture(fault)
}

export interface BothEars<T> {
  readonly right: T
  readonly left: T
}

export function mapEars<A, B>({ right, left }: BothEars<A>, change: (of: A) => B): BothEars<B> {
  return { right: change(right), left: change(left) }
}

export interface BeforeAndAfter<T> {
  readonly before: T
  readonly after: T
}

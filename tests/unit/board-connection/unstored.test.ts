import { describe, expect, test } from 'vitest'
import type { Place } from '../../../app/board/connection/changed-places.ts'
import { Unstored } from '../../../app/board/connection/unstored.ts'

const question = (id: string): Place => ({ kind: 'questions', id })

describe('what the server has not confirmed', () => {
  test('an edit is unstored until the frame that carries it is confirmed', () => {
    const unstored = new Unstored()
    expect(unstored.isEmpty).toBe(true)
    unstored.note([question('q1')])
    expect(unstored.isEmpty).toBe(false)
    unstored.send()
    expect(unstored.isEmpty).toBe(false)
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(true)
  })

  test('a frame without edits of ours also has to be confirmed', () => {
    const unstored = new Unstored()
    unstored.send()
    expect(unstored.isEmpty).toBe(false)
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(true)
  })

  test('an edit made again travels with the later frame', () => {
    const unstored = new Unstored()
    unstored.note([question('q1')])
    unstored.send()
    unstored.note([question('q1')])
    unstored.send()
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(false)
    unstored.confirm(2)
    expect(unstored.isEmpty).toBe(true)
  })

  test('an edit made offline is carried by the first frame of the next socket', () => {
    const unstored = new Unstored()
    unstored.send()
    unstored.confirm(1)
    unstored.note([question('q1')])
    unstored.restart()
    expect(unstored.isEmpty).toBe(false)
    unstored.send()
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(true)
  })

  test('a cut link makes what was on its way unsent again', () => {
    const unstored = new Unstored()
    unstored.note([question('q1')])
    unstored.send()
    unstored.restart()
    unstored.send()
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(true)
  })

  test('a refused frame loses its own edits and the later ones, not the earlier ones', () => {
    const unstored = new Unstored()
    for (const id of ['q1', 'q2', 'q3']) {
      unstored.note([question(id)])
      unstored.send()
    }
    unstored.note([question('q4')])
    expect(unstored.lostBy(2).map(({ id }) => id)).toEqual(['q2', 'q3', 'q4'])
  })

  test('the journal brings places back on a page opened later', () => {
    const earlier = new Unstored()
    earlier.note([{ kind: 'tests', id: 't1', field: 'points', key: 'air.masked.1000' }, question('q1')])
    const later = new Unstored()
    later.hold(earlier.toJournal())
    later.release()
    expect(later.isEmpty).toBe(false)
    expect(later.lostBy(1)).toEqual([
      { kind: 'tests', id: 't1', field: 'points', key: 'air.masked.1000' },
      question('q1'),
    ])
  })

  test('a damaged journal is left aside', () => {
    const unstored = new Unstored()
    unstored.hold('[{"kind":"no-such-kind","id":"x"}]')
    unstored.hold('{')
    unstored.release()
    expect(unstored.isEmpty).toBe(true)
  })

  test('what an earlier page left is confirmed by no frame before its words have been read', () => {
    const earlier = new Unstored()
    earlier.note([question('q1')])
    const unstored = new Unstored()
    unstored.hold(earlier.toJournal())
    unstored.send()
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(false)
    expect(unstored.toJournal()).toBe(earlier.toJournal())
    unstored.release()
    unstored.restart()
    unstored.send()
    unstored.confirm(1)
    expect(unstored.isEmpty).toBe(true)
  })
})

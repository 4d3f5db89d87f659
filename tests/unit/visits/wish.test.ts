import { describe, expect, it } from 'vitest'
import { wishWords } from '../../../app/messages/en/wish.ts'
import { Trigger } from '../../../lib/board/records/contingency.ts'
import { readingsOf, readWish, wishTopics } from '../../../lib/board/wish.ts'

describe('a wish', () => {
  it.each([
    ['Revise to the stapes if fixation recurs', 'Revise to the stapes', 'fixation recurs', 'fixation'],
    ['if the coupling slips, then exchange the clip.', 'Exchange the clip', 'the coupling slips', 'coupling'],
    ['refit when bone conduction drops', 'Refit', 'bone conduction drops', 'inner-ear'],
    ['Refit if she understands fewer words', 'Refit', 'she understands fewer words', 'words'],
    ['Tell me should it fall short of the forecast', 'Tell me', 'it fall short of the forecast', 'forecast'],
  ])('"%s" is read as what is done, and what about', (text, plan, condition, topic) => {
    expect(readWish(text, wishWords)).toMatchObject({
      plan,
      condition,
      topics: expect.arrayContaining([...wishTopics]),
    })
    expect(readWish(text, wishWords).topics[0]).toBe(topic)
  })

  it('that names no topic keeps them all in their order', () => {
    expect(readWish('if it goes wrong', wishWords)).toMatchObject({ named: 0, topics: wishTopics })
    expect(readWish('', wishWords)).toMatchObject({ condition: '', plan: '', named: 0 })
  })

  it('has readings that a contingency takes', () => {
    for (const topic of wishTopics)
      for (const reading of readingsOf[topic])
        expect(Trigger.safeParse(reading).success, JSON.stringify(reading)).toBe(true)
  })
})

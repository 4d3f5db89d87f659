import { describe, expect, it } from 'vitest'
import { KeptAnswers } from '../../../server/series/kept-answers.ts'

const asked = (parts: Partial<{ revision: number; question: string; caseIds: readonly string[] }> = {}) => ({
  revision: 1,
  question: 'all',
  caseIds: ['a', 'b'],
  ...parts,
})

/** Counts how often something was added up. */
function counting() {
  const answers = new KeptAnswers<number>()
  let computed = 0
  const ask = (of = asked()) => answers.get(of, async () => ++computed)
  return { ask, computed: () => computed }
}

describe('answers of a series', () => {
  it('are added up once for all who ask the same of the same cases, also at the same time', async () => {
    const { ask, computed } = counting()
    expect(await Promise.all([ask(), ask(), ask()])).toEqual([1, 1, 1])
    expect(await ask()).toBe(1)
    expect(computed()).toBe(1)
  })

  it('are added up anew of other cases, another question, or what has changed since', async () => {
    const { ask } = counting()
    await ask()
    expect(await ask(asked({ caseIds: ['a'] }))).toBe(2)
    expect(await ask(asked({ caseIds: ['b', 'a'] }))).toBe(3)
    expect(await ask(asked({ question: 'left ears' }))).toBe(4)
    expect(await ask()).toBe(1)
    expect(await ask(asked({ revision: 2 }))).toBe(5)
  })

  it('that failed are asked again', async () => {
    const answers = new KeptAnswers<string>()
    const failed = answers.get(asked(), async () => {
      throw new Error('the store is away')
    })
    await expect(failed).rejects.toThrow('the store is away')
    expect(await answers.get(asked(), async () => 'here')).toBe('here')
  })

  it('are forgotten when many others were asked since', async () => {
    const { ask, computed } = counting()
    await ask()
    for (let n = 0; n < 24; n++) await ask(asked({ question: `filter ${n}` }))
    await ask()
    expect(computed()).toBe(26)
  })
})

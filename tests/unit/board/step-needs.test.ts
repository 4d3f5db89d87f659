import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { operationTime } from '@/lib/board/operation-time.ts'
import type { OperativeStep, StepState } from '@/lib/board/records/operative-step.ts'
import type { StepException } from '@/lib/board/records/step-exception.ts'
import { begunWithout, closesCircle, needsToAnswer, openNeeds, stepFinder } from '@/lib/board/step-needs.ts'

const at = '2026-05-04T09:00:00.000Z'
const step = (id: string, state: StepState, needs: readonly string[] = []): OperativeStep => ({
  id,
  author: 'ada',
  at,
  rank: `a${id}`,
  title: id,
  check: '',
  hazard: '',
  state,
  needs: [...needs],
})
const answer = (of: string, need: string, author: string): StepException => ({
  id: `${of}-${need}-${author}`,
  author,
  at,
  step: of,
  need,
  reason: 'seen',
})

describe('prerequisites', () => {
  it('are open until they are done or left out, and what is not there is not open', () => {
    const steps = [step('a', 'ahead'), step('b', 'under-way'), step('c', 'done'), step('d', 'left-out')]
    const last = step('e', 'ahead', ['a', 'b', 'c', 'd', 'gone'])
    expect(openNeeds(last, stepFinder(steps)).map(({ id }) => id)).toEqual(['a', 'b'])
    expect(openNeeds({ needs: undefined }, stepFinder(steps))).toEqual([])
  })

  it('are asked about whenever a step begins, and when it is finished only where nobody answered', () => {
    const asked = (state: StepState, to: StepState, answers: readonly StepException[], person = 'ada') => {
      const own = step('b', state, ['a'])
      const open = needsToAnswer(own, to, stepFinder([step('a', 'ahead'), own]), answers, person)
      return open.map(({ id }) => id)
    }
    expect(asked('ahead', 'under-way', [])).toEqual(['a'])
    expect(asked('ahead', 'done', [answer('b', 'a', 'ada')])).toEqual(['a'])
    expect(asked('under-way', 'done', [])).toEqual(['a'])
    expect(asked('under-way', 'done', [answer('b', 'a', 'bob')])).toEqual([])
    expect(asked('under-way', 'done', [answer('c', 'a', 'bob'), answer('b', 'z', 'ada')])).toEqual(['a'])
    expect(asked('ahead', 'left-out', [])).toEqual([])
    expect(asked('done', 'ahead', [])).toEqual([])
  })

  it('that are opened again leave those begun without a word, and only those', () => {
    const steps = [
      step('a', 'done'),
      step('b', 'under-way', ['a']),
      step('c', 'done', ['a']),
      step('d', 'ahead', ['a']),
      step('e', 'done', ['b']),
    ]
    expect(begunWithout('a', steps, [answer('c', 'a', 'bob')]).map(({ id }) => id)).toEqual(['b'])
  })

  it('close a circle exactly when a step would be reached from itself', () => {
    const nodes = 6
    const edges = fc.array(fc.tuple(fc.nat(nodes - 1), fc.nat(nodes - 1)), { maxLength: 12 })
    fc.assert(
      fc.property(edges, fc.nat(nodes - 1), (pairs, start) => {
        const needsOf = (node: number) => [...new Set(pairs.flatMap(([from, to]) => (from === node ? [to] : [])))]
        const steps = Array.from({ length: nodes }, (_, node) => step(`${node}`, 'ahead', needsOf(node).map(String)))
        // Warshall's closure: which node is reached from which, by paths of any length.
        const reached = Array.from({ length: nodes }, (_, from) =>
          Array.from({ length: nodes }, (__, to) => needsOf(from).includes(to)),
        )
        for (let by = 0; by < nodes; by++)
          for (let from = 0; from < nodes; from++)
            for (let to = 0; to < nodes; to++)
              if (reached[from]?.[by] && reached[by]?.[to]) (reached[from] as boolean[])[to] = true
        const needs = needsOf(start).map(String)
        expect(closesCircle(`${start}`, needs, stepFinder(steps))).toBe(reached[start]?.[start])
      }),
    )
  })
})

describe('the time of the operation', () => {
  const timed = (state: StepState, startedAt?: string, endedAt?: string) => ({ state, startedAt, endedAt })

  it('runs from the first begin until nothing is left to do', () => {
    expect(operationTime([timed('ahead')])).toBeUndefined()
    const [nine, ten, eleven] = ['09', '10', '11'].map((hour) => `2026-05-04T${hour}:00:00.000Z`)
    expect(operationTime([timed('done', ten, eleven), timed('under-way', nine)])).toEqual({ from: nine })
    expect(operationTime([timed('done', nine, ten), timed('ahead')])).toEqual({ from: nine })
    // What is left out ends nothing.
    expect(operationTime([timed('done', nine, ten), timed('left-out', undefined, eleven)])).toEqual({
      from: nine,
      to: ten,
    })
  })
})

import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { addStep, moveStep } from '@/lib/board/edits/decisions.ts'
import { moveStepDespite, moveStepOn, removeStep, rewordStep } from '@/lib/board/edits/steps.ts'
import { changeRecord, type Pen, putRecord, removeRecord } from '@/lib/board/edits/writing.ts'
import { readRecord, readTable } from '@/lib/board/reading.ts'
import type { OperativeStep } from '@/lib/board/records/operative-step.ts'
import { Proposal } from '@/server/guard/proposal.ts'
import { sampleNow } from '../support/sample-records.ts'

/** A board with a guard, and pages that hold a copy of it each. */
class Board {
  private readonly log: Uint8Array[] = []
  private readonly proposal = new Proposal('record', [])
  private readonly owners = new Map<number, string>()

  page(participant: string): Page {
    const page = new Page(participant)
    this.bring(page)
    return page
  }

  bring(page: Page): void {
    for (const update of this.log) Y.applyUpdate(page.doc, update)
  }

  /** What the guard says to all that a page holds; what it takes is kept. */
  take(page: Page): string {
    const update = Y.encodeStateAsUpdate(page.doc)
    const sender = { participant: page.pen.participant, role: 'team' } as const
    const verdict = this.proposal.check(update, sender, this.owners, sampleNow.getTime())
    if (!verdict.ok) {
      this.proposal.renew(this.log)
      return verdict.refused.code
    }
    for (const client of verdict.newClients) this.owners.set(client, page.pen.participant)
    this.log.push(update)
    return 'accepted'
  }
}

let made = 0
class Page {
  readonly doc = new Y.Doc()
  readonly pen: Pen

  constructor(participant: string) {
    this.pen = { participant, now: () => sampleNow, newId: () => `record-${++made}` }
  }

  step(id: string): OperativeStep {
    const step = readRecord(this.doc, 'steps', id)
    if (step === undefined) throw new Error(`no step ${id}`)
    return step
  }

  add(title: string, needs: readonly string[] = []): string {
    return addStep(this.doc, this.pen, { title, check: '', hazard: '' }, needs)
  }
}

/** Two steps of which the second needs the first, on a board that knows them. */
function twoSteps(): { board: Board; page: Page; first: string; second: string } {
  const board = new Board()
  const page = board.page('ann')
  const first = page.add('Test every ossicle')
  const second = page.add('Attach the actuator', [first])
  expect(board.take(page)).toBe('accepted')
  return { board, page, first, second }
}

describe('[G17] a step whose prerequisite is open', () => {
  it.each(['under-way', 'done'] as const)('is not %s without an answer', (state) => {
    const { board, page, second } = twoSteps()
    moveStep(page.doc, page.pen, page.step(second), state)
    expect(board.take(page)).toBe('open-prerequisite')
  })

  it.each(['under-way', 'done'] as const)('is %s with an answer in the same update', (state) => {
    const { board, page, first, second } = twoSteps()
    moveStepDespite(page.doc, page.pen, page.step(second), state, [first], 'seen at the last operation')
    expect(board.take(page)).toBe('accepted')
  })

  it('needs an answer for each that is open, about this very step', () => {
    const { board, page, first, second } = twoSteps()
    const other = page.add('Fix the implant')
    rewordStep(page.doc, second, { needs: [first, other] })
    expect(board.take(page)).toBe('accepted')
    const tried = (needs: readonly string[]) => {
      const copy = board.page('ann')
      moveStepDespite(copy.doc, copy.pen, copy.step(second), 'done', needs, 'seen')
      return board.take(copy)
    }
    expect(tried([first])).toBe('open-prerequisite')
    expect(tried([second])).toBe('open-prerequisite')
    expect(tried([first, other])).toBe('accepted')
  })

  it('may be left out, put back and moved freely once nothing is open', () => {
    const { board, page, first, second } = twoSteps()
    moveStep(page.doc, page.pen, page.step(second), 'left-out')
    expect(board.take(page)).toBe('accepted')
    moveStep(page.doc, page.pen, page.step(second), 'ahead')
    moveStep(page.doc, page.pen, page.step(first), 'left-out')
    moveStep(page.doc, page.pen, page.step(second), 'done')
    expect(board.take(page)).toBe('accepted')
    moveStep(page.doc, page.pen, page.step(second), 'ahead')
    moveStep(page.doc, page.pen, page.step(first), 'ahead')
    expect(board.take(page)).toBe('accepted')
  })

  it('is begun on the own answer alone, an earlier one too, and finished on that of whoever began it', () => {
    const { board, page, first, second } = twoSteps()
    moveStepDespite(page.doc, page.pen, page.step(second), 'under-way', [first], 'seen')
    moveStep(page.doc, page.pen, page.step(second), 'ahead')
    expect(board.take(page)).toBe('accepted')
    const bob = board.page('bob')
    moveStep(bob.doc, bob.pen, bob.step(second), 'under-way')
    expect(board.take(bob)).toBe('open-prerequisite')
    moveStep(page.doc, page.pen, page.step(second), 'under-way')
    expect(board.take(page)).toBe('accepted')
    const later = board.page('bob')
    moveStep(later.doc, later.pen, later.step(second), 'done')
    expect(board.take(later)).toBe('accepted')
  })

  it('takes no answer in the name of somebody else', () => {
    const { board, page, first, second } = twoSteps()
    const stamp = { id: 'forged', author: 'bob', at: sampleNow.toISOString() }
    putRecord(page.doc, 'stepExceptions', { ...stamp, step: second, need: first, reason: 'seen' })
    moveStep(page.doc, page.pen, page.step(second), 'under-way')
    expect(board.take(page)).toBe('wrong-author')
  })

  it.each([
    ['with nothing to read', '   ', 'invalid-record'],
    ['longer than it may be', 'x'.repeat(281), 'invalid-record'],
    ['of the greatest length', 'x'.repeat(280), 'accepted'],
  ])('takes no reason %s', (_, reason, verdict) => {
    const { board, page, first, second } = twoSteps()
    moveStepDespite(page.doc, page.pen, page.step(second), 'under-way', [first], reason)
    expect(board.take(page)).toBe(verdict)
  })
})

describe('[G17] an answer that was given', () => {
  const answered = () => {
    const { board, page, first, second } = twoSteps()
    moveStepDespite(page.doc, page.pen, page.step(second), 'under-way', [first], 'seen')
    expect(board.take(page)).toBe('accepted')
    const [exception] = readTable(page.doc, 'stepExceptions')
    if (exception === undefined) throw new Error('expected an answer')
    return { board, page, first, second, exception: exception.id }
  }

  it('does not change, not even by its author', () => {
    const { board, page, exception } = answered()
    changeRecord(page.doc, 'stepExceptions', exception, { reason: 'other words' })
    expect(board.take(page)).toBe('fixed-field')
  })

  it('is not removed, and neither are its steps', () => {
    const { board, exception, first, second } = answered()
    const tried = (edit: (page: Page) => void) => {
      const page = board.page('ann')
      edit(page)
      return board.take(page)
    }
    expect(tried(({ doc }) => removeRecord(doc, 'stepExceptions', exception))).toBe('not-permitted')
    expect(tried(({ doc }) => removeStep(doc, first))).toBe('step-in-use')
    expect(tried(({ doc }) => removeStep(doc, second))).toBe('step-in-use')
  })

  it('names steps of the case', () => {
    const { board, page, first } = answered()
    moveStepDespite(page.doc, page.pen, page.step(first), 'under-way', ['elsewhere'], 'seen')
    expect(board.take(page)).toBe('missing-reference')
  })
})

describe('[G17] prerequisites', () => {
  it('are steps of the same case', () => {
    const { board, page, first } = twoSteps()
    rewordStep(page.doc, first, { needs: ['elsewhere'] })
    expect(board.take(page)).toBe('missing-reference')
  })

  it('are not the step itself, nor one that needs it, nor named twice', () => {
    const { board, first, second } = twoSteps()
    const tried = (needs: string[]) => {
      const page = board.page('ann')
      rewordStep(page.doc, first, { needs })
      return board.take(page)
    }
    expect(tried([first])).toBe('step-circle')
    expect(tried([second])).toBe('step-circle')
    const page = board.page('ann')
    rewordStep(page.doc, second, { needs: [first, first] })
    expect(board.take(page)).toBe('invalid-record')
  })

  it('do not close a circle by two people at once', () => {
    const board = new Board()
    const ann = board.page('ann')
    const [one, two] = [ann.add('one'), ann.add('two')]
    expect(board.take(ann)).toBe('accepted')
    const bob = board.page('bob')
    rewordStep(ann.doc, one, { needs: [two] })
    rewordStep(bob.doc, two, { needs: [one] })
    expect([board.take(ann), board.take(bob)]).toEqual(['accepted', 'step-circle'])
  })

  it('are not removed from under a step, unless it no longer needs them', () => {
    const { board, first } = twoSteps()
    const bare = board.page('ann')
    removeRecord(bare.doc, 'steps', first)
    expect(board.take(bare)).toBe('step-in-use')
    const whole = board.page('ann')
    removeStep(whole.doc, first)
    expect(board.take(whole)).toBe('accepted')
  })

  it('may be absent, as in cases written before there were any', () => {
    const board = new Board()
    const page = board.page('ann')
    const { needs: _, ...old } = page.step(page.add('one'))
    const fresh = board.page('ann')
    putRecord(fresh.doc, 'steps', old)
    moveStep(fresh.doc, fresh.pen, old, 'done')
    expect(board.take(fresh)).toBe('accepted')
  })
})

describe('two pages that mark steps without hearing of each other', () => {
  it('both keep their answers, and read the same in the end', () => {
    const { board, page: ann, first, second } = twoSteps()
    const bob = board.page('bob')
    moveStepDespite(ann.doc, ann.pen, ann.step(second), 'under-way', [first], 'reason of ann')
    moveStepDespite(bob.doc, bob.pen, bob.step(second), 'done', [first], 'reason of bob')
    expect([board.take(ann), board.take(bob)]).toEqual(['accepted', 'accepted'])
    board.bring(ann)
    board.bring(bob)
    expect(ann.doc.toJSON()).toEqual(bob.doc.toJSON())
    expect(readTable(ann.doc, 'stepExceptions').map(({ reason }) => reason)).toEqual(
      expect.arrayContaining(['reason of ann', 'reason of bob']),
    )
  })

  it('are taken as a whole after a time without a link, also when a step was opened again meanwhile', () => {
    const { board, page, first, second } = twoSteps()
    const marked = (id: string, state: OperativeStep['state']) =>
      moveStepOn(page.doc, page.pen, page.step(id), state, 'opened again')
    marked(first, 'done')
    marked(second, 'under-way')
    marked(first, 'ahead')
    expect(board.take(page)).toBe('accepted')
    expect(readTable(page.doc, 'stepExceptions')).toMatchObject([{ step: second, need: first }])
  })

  it('bring a step that was added and marked meanwhile, held to its prerequisites', () => {
    const { board, page, first } = twoSteps()
    const added = page.add('Stop the bleeding')
    moveStep(page.doc, page.pen, page.step(added), 'done')
    expect(board.take(page)).toBe('accepted')
    const late = page.add('Close', [first])
    moveStep(page.doc, page.pen, page.step(late), 'under-way')
    expect(board.take(page)).toBe('open-prerequisite')
  })

  it('hear of it when the other has opened the prerequisite again', () => {
    const { board, page: ann, first, second } = twoSteps()
    moveStep(ann.doc, ann.pen, ann.step(first), 'done')
    expect(board.take(ann)).toBe('accepted')
    const bob = board.page('bob')
    moveStep(ann.doc, ann.pen, ann.step(first), 'ahead')
    moveStep(bob.doc, bob.pen, bob.step(second), 'under-way')
    expect([board.take(ann), board.take(bob)]).toEqual(['accepted', 'open-prerequisite'])
  })
})

describe('what is filed under a step', () => {
  it('names one of the case', () => {
    const { board, page, first } = twoSteps()
    const note = { id: 'note-1', author: 'ann', at: sampleNow.toISOString(), rank: 'a0', cites: [], body: [] }
    putRecord(page.doc, 'notes', { ...note, kind: 'finding', step: first })
    expect(board.take(page)).toBe('accepted')
    changeRecord(page.doc, 'notes', 'note-1', { step: 'elsewhere' })
    expect(board.take(page)).toBe('missing-reference')
  })
})

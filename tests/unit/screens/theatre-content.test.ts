import { describe, expect, it } from 'vitest'
import { calledQuestion, newestNote, openContingencies } from '../../../app/theatre/theatre-content.ts'
import { contingency, note, question } from '../../fixtures/board-records.ts'

const moved = { by: 'p-1', at: '2026-03-02T10:00:00.000Z', why: '' }
const struck = { by: 'p-1', at: '2026-03-02T12:00:00.000Z', reason: 'wrong ear' }
const thread = (of: ReturnType<typeof question>) => ({ question: of, folded: [], replies: [], backers: [] })

describe('the theatre view', () => {
  it('shows the question called last, and none that is only raised', () => {
    const called = (id: string, movedAt: string) => thread(question(id, { state: 'called', movedAt }))
    const threads = [
      called('later', '2026-03-02T10:05:00Z'),
      called('earlier', '2026-03-02T10:00:00Z'),
      thread(question('raised')),
    ]
    expect(calledQuestion(threads)?.question.id).toBe('later')
    expect(calledQuestion([thread(question('raised'))])).toBeUndefined()
  })

  it('shows contingencies that were met before those that are watched, and no others', () => {
    const all = [
      contingency('watched', { rank: 'a0' }),
      contingency('over', { rank: 'a1', state: 'acted-on', moved }),
      contingency('down', { rank: 'a2', state: 'stood-down', moved }),
      contingency('met', { rank: 'a3', state: 'met', moved }),
    ]
    expect(openContingencies(all).map(({ id }) => id)).toEqual(['met', 'watched'])
  })

  it('shows the newest finding or decision; reasons and struck notes do not count', () => {
    const notes = [
      note('finding', { at: '2026-03-02T09:00:00.000Z' }),
      note('decision', { at: '2026-03-02T10:00:00.000Z', kind: 'decision' }),
      note('struck', { at: '2026-03-02T11:00:00.000Z', struck }),
      note('reason', { at: '2026-03-02T12:00:00.000Z', kind: 'reason' }),
    ]
    expect(newestNote(notes)?.id).toBe('decision')
    expect(newestNote([])).toBeUndefined()
  })
})

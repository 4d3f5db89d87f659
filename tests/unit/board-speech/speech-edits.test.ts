import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import {
  closeSpeechTest,
  enterSpeechTest,
  type NewSpeechTest,
  reinstateSpeechTest,
  verifySpeechTest,
} from '../../../lib/board/edits/speech.ts'
import type { Pen } from '../../../lib/board/edits/writing.ts'
import { readRecord } from '../../../lib/board/reading.ts'
import { asDbHl, asDbSpl } from '../../../lib/units/levels.ts'

function penOf(participant: string): Pen {
  let made = 0
  return { participant, now: () => new Date('2026-05-04T10:00:00.000Z'), newId: () => `${participant}-${++made}` }
}

const score = (parts: Partial<NewSpeechTest> = {}): NewSpeechTest => ({
  ear: 'right',
  condition: 'unaided',
  performedOn: '2026-05-02',
  material: 'monosyllables',
  listName: '',
  items: 20,
  right: 13,
  speechLevel: asDbSpl(65),
  note: '',
  ...parts,
})

describe('word scores', () => {
  it('of a later day supersede those of the same setting in the same edit', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const first = enterSpeechTest(doc, pen, score(), '')
    let edits = 0
    doc.on('update', () => edits++)
    const second = enterSpeechTest(doc, pen, score({ performedOn: '2026-05-03' }), 'newer score')
    expect(edits).toBe(1)
    expect(readRecord(doc, 'speechTests', first)).toMatchObject({
      state: 'superseded',
      closing: { reason: 'newer score', supersededBy: second },
    })
    expect(readRecord(doc, 'speechTests', second)?.state).toBe('current')
  })

  it.each<[string, Partial<NewSpeechTest>]>([
    ['of the same day', {}],
    ['at another level', { performedOn: '2026-05-03', speechLevel: asDbSpl(80) }],
    ['in noise', { performedOn: '2026-05-03', noiseLevel: asDbSpl(60) }],
    ['of the other ear', { performedOn: '2026-05-03', ear: 'left' }],
    ['with the device', { performedOn: '2026-05-03', condition: 'aided' }],
    ['of other material', { performedOn: '2026-05-03', material: 'digits' }],
    ['of an earlier day', { performedOn: '2026-05-01' }],
  ])('%s stand beside one another', (_, parts) => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const first = enterSpeechTest(doc, pen, score(), '')
    enterSpeechTest(doc, pen, score(parts), 'newer score')
    expect(readRecord(doc, 'speechTests', first)?.state).toBe('current')
  })

  it('are verified, closed with a reason and made current again', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const id = enterSpeechTest(doc, pen, score(), '')
    verifySpeechTest(doc, pen, id)
    closeSpeechTest(doc, pen, id, 'superseded', 'list read too fast')
    expect(readRecord(doc, 'speechTests', id)).toMatchObject({
      verification: { by: 'p', at: '2026-05-04T10:00:00.000Z' },
      state: 'superseded',
      closing: { by: 'p', reason: 'list read too fast' },
    })
    reinstateSpeechTest(doc, id)
    expect(readRecord(doc, 'speechTests', id)).toMatchObject({ state: 'current' })
    expect(readRecord(doc, 'speechTests', id)?.closing).toBeUndefined()
  })

  it('and reception thresholds of the same words do not supersede each other', () => {
    const doc = new Y.Doc()
    const pen = penOf('p')
    const { items: _items, right: _right, speechLevel: _level, ...shared } = score({ performedOn: '2026-05-03' })
    const first = enterSpeechTest(doc, pen, score(), '')
    const threshold = enterSpeechTest(doc, pen, { ...shared, receptionThreshold: asDbHl(45) }, 'measured again')
    expect(readRecord(doc, 'speechTests', first)?.state).toBe('current')
    const later = { ...shared, performedOn: '2026-05-04', receptionThreshold: asDbHl(40) }
    enterSpeechTest(doc, pen, later, 'measured again')
    expect(readRecord(doc, 'speechTests', threshold)?.state).toBe('superseded')
  })
})

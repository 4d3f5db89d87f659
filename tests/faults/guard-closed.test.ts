import { describe, expect, it } from 'vitest'
import * as Y from 'yjs'
import { changeRecord, putRecord, removeRecord } from '@/lib/board/edits/writing.ts'
import { type KindName, kindNames, kindOf, kindsIn } from '@/lib/board/records.ts'
import { Proposal } from '@/server/guard/proposal.ts'
import { sampleId, sampleNow, sampleRecord } from '../support/sample-records.ts'

const now = sampleNow.toISOString()
const by = { participant: 'ann', role: 'moderator' } as const

/** A case in this phase, with one record of each kind, and what the guard says to an edit of it. */
function judged(phase: string, edit: (doc: Y.Doc) => void): string {
  const seeded = new Y.Doc()
  for (const kind of kindsIn('record')) {
    const id = sampleId(kind, 'ann', 'of-others')
    const record = { ...sampleRecord(kind, id, 'ann'), ...(kind === 'header' ? { phase } : {}) }
    putRecord(seeded, kind, record as never)
  }
  const state = Y.encodeStateAsUpdate(seeded)
  const proposal = new Proposal('record', [state])
  const page = new Y.Doc()
  Y.applyUpdate(page, state)
  const before = Y.encodeStateVector(page)
  page.transact(() => edit(page))
  const owners = new Map([[seeded.clientID, 'ann']])
  const verdict = proposal.check(Y.encodeStateAsUpdate(page, before), by, owners, sampleNow.getTime())
  return verdict.ok ? 'accepted' : verdict.refused.code
}

const reopened = { by: 'ann', at: now, reason: 'a test was missing' }
const reopen = (doc: Y.Doc, patch: object) => changeRecord(doc, 'header', 'only', patch)
const removable = kindsIn('record').filter((kind) => kindOf(kind).remove.length > 0 && kind !== 'votes')
const changeable: readonly (readonly [KindName, object])[] = [
  ['tests', { note: 'later' }],
  ['speechTests', { note: 'later' }],
  ['plan', { aim: 'later' }],
  ['steps', { title: 'later' }],
  ['contingencies', { plan: 'later' }],
  ['visits', { note: 'later' }],
]

describe('[G16] the record of a closed case', () => {
  it.each(changeable)('is not changed: %s', (kind, patch) => {
    const edit = (doc: Y.Doc) => changeRecord(doc, kind, sampleId(kind, 'ann', 'of-others'), patch)
    expect(judged('follow-up', edit)).toBe('accepted')
    expect(judged('closed', edit)).toBe('case-closed')
  })

  it.each(removable)('loses nothing: %s', (kind) => {
    const edit = (doc: Y.Doc) => removeRecord(doc, kind, sampleId(kind, 'ann', 'of-others'))
    expect(judged('follow-up', edit)).toBe('accepted')
    expect(judged('closed', edit)).toBe('case-closed')
  })

  it('takes nothing new', () => {
    for (const kind of ['notes', 'annotations', 'fitMeasurements'] as const) {
      const edit = (doc: Y.Doc) => putRecord(doc, kind, sampleRecord(kind, 'new-one', 'ann') as never)
      expect([kind, judged('follow-up', edit)]).toEqual([kind, 'accepted'])
      expect([kind, judged('closed', edit)]).toEqual([kind, 'case-closed'])
    }
  })

  it('can still be shown', () => {
    expect(judged('closed', (doc) => changeRecord(doc, 'mainScreen', 'only', { showing: { kind: 'nothing' } }))).toBe(
      'accepted',
    )
  })

  it('keeps its header, and is opened again with a reason alone', () => {
    expect(judged('closed', (doc) => reopen(doc, { summary: 'later' }))).toBe('case-closed')
    expect(judged('closed', (doc) => reopen(doc, { reopened }))).toBe('case-closed')
    expect(judged('closed', (doc) => reopen(doc, { phase: 'follow-up' }))).toBe('reopened-without-reason')
    expect(judged('closed', (doc) => reopen(doc, { phase: 'follow-up', reopened: { ...reopened, reason: '' } }))).toBe(
      'invalid-record',
    )
    expect(judged('closed', (doc) => reopen(doc, { phase: 'follow-up', reopened: { ...reopened, by: 'bob' } }))).toBe(
      'wrong-author',
    )
    expect(judged('closed', (doc) => reopen(doc, { phase: 'follow-up', reopened }))).toBe('accepted')
  })

  it('has a reason for opening only where it was closed', () => {
    expect(judged('follow-up', (doc) => reopen(doc, { reopened }))).toBe('reopened-while-open')
  })

  it('is closed by moderator or team in one edit that changes nothing else', () => {
    expect(judged('follow-up', (doc) => reopen(doc, { phase: 'closed' }))).toBe('accepted')
    const both = (doc: Y.Doc) => {
      reopen(doc, { phase: 'closed' })
      changeRecord(doc, 'plan', 'only', { aim: 'later' })
    }
    expect(judged('follow-up', both)).toBe('case-closed')
  })

  it('is the record alone: kinds of the floor are another document', () => {
    expect(kindNames.filter((kind) => kindOf(kind).document === 'floor')).toContain('questions')
  })
})

import { strFromU8, unzipSync } from 'fflate'
import { Fhir } from 'fhir'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { onlyId } from '@/lib/board/identity.ts'
import {
  ApiError,
  CaseArchivePreview,
  CaseSummary,
  CasesHeld,
  ErasureList,
  ErasureReceipt,
} from '@/lib/interchange/api.ts'
import { archiveFiles, archiveLimits, pictureFile } from '@/lib/interchange/archive/manifest.ts'
import { readArchive } from '@/lib/interchange/archive/read-archive.ts'
import { demo } from '@/server/demo/demo.ts'
import { type ApiInstallation, startApiInstallation } from '../../support/api-installation.ts'

const clock = { now: new Date('2026-05-04T10:00:00.000Z') }
const now = () => clock.now
const heron = 'demo-heron'
let here: ApiInstallation
let elsewhere: ApiInstallation
let team: string
let owner: string

beforeEach(async () => {
  clock.now = new Date('2026-05-04T10:00:00.000Z')
  here = await startApiInstallation(now)
  elsewhere = await startApiInstallation(now)
  await demo.seed(here.store, clock.now)
  team = await here.join('team', { kind: 'programme', id: 'demo' })
  owner = await here.join('moderator', { kind: 'installation' }, 'Owner')
})
afterEach(async () => {
  await here.stop()
  await elsewhere.stop()
})

const photo = `/api/cases/${heron}/pictures/photo-niche`
const bytesOf = async (response: Response) => new Uint8Array(await response.arrayBuffer())
const codeOf = async (response: Response) => ApiError.parse(await response.json()).error.code
const archive = async (id = heron, by = team) => bytesOf(await here.get(`/api/cases/${id}/export/archive`, by))
const archivesOf = (programme: string) => `/api/programmes/${programme}/archives`

/** A programme on the other installation, and somebody of its team. */
async function receiving() {
  await elsewhere.store.createProgramme({ id: 'clinic', label: 'Clinic', createdAt: now().toISOString() })
  return elsewhere.join('team', { kind: 'programme', id: 'clinic' })
}

describe('a case going out', () => {
  it.each(['fhir', 'statistics', 'archive'])('goes as %s to moderator and team of the case alone', async (what) => {
    const path = `/api/cases/${heron}/export/${what}`
    expect((await here.get(path)).status).toBe(401)
    for (const role of ['panel', 'observer'] as const) {
      const cookie = await here.join(role, { kind: 'programme', id: 'demo' })
      expect([role, (await here.get(path, cookie)).status]).toEqual([role, 403])
    }
    for (const role of ['moderator', 'team'] as const) {
      const cookie = await here.join(role, { kind: 'case', id: heron })
      const answer = await here.get(path, cookie)
      expect([role, answer.status]).toEqual([role, 200])
      expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="case-demo-heron/)
      expect((await here.get(path.replace('heron', 'plover'), cookie)).status).toBe(403)
    }
  })

  it.each(['demo-heron', 'demo-plover', 'demo-curlew'])('is valid FHIR R4: %s', async (id) => {
    const answer = await here.get(`/api/cases/${id}/export/fhir`, owner)
    expect(answer.headers.get('content-type')).toContain('application/fhir+json')
    const { messages } = new Fhir().validate(await answer.json(), { errorOnUnexpected: true })
    expect(messages?.filter(({ severity }) => severity === 'error') ?? []).toEqual([])
  })

  it('goes as tables with their dictionary', async () => {
    const files = unzipSync(await bytesOf(await here.get('/api/cases/demo-curlew/export/statistics', owner)))
    expect(Object.keys(files).sort()).toEqual(['dictionary.csv', 'speech.csv', 'thresholds.csv'])
    const [columns, ...speech] = strFromU8(files['speech.csv'] ?? new Uint8Array())
      .trim()
      .split('\r\n')
    expect(columns).toMatch(/case_pseudonym.*items,items_right/)
    expect(speech.length).toBeGreaterThan(0)
    expect(speech[0]).toMatch(/Curlew/)
    expect(strFromU8(files['thresholds.csv'] ?? new Uint8Array())).toContain('first-fitting')
  })

  it('says what is missing when nothing is known of the patient yet', async () => {
    await here.store.createCase({ id: 'empty', programme: 'demo', label: 'Empty', rank: 'z', createdAt: '' })
    const answer = await here.get('/api/cases/empty/export/fhir', team)
    expect([answer.status, await codeOf(answer)]).toEqual([409, 'no-header'])
    expect(readArchive(await archive('empty')).ok).toBe(true)
  })

  it('has nothing of what was withdrawn, and still plays from its beginning', async () => {
    const place = await here.store.findCase(heron)
    const { tables } = await here.hub.visit(`floor.${heron}`)
    const [question] = tables.values('questions')
    if (place === null || question === undefined) throw new Error('the demo has a question')
    const by = { participant: question.author, role: 'moderator' as const }
    await here.withdrawals.withdraw(place, { kind: 'questions', id: question.id, reason: 'named somebody' }, by)
    const reading = readArchive(await archive())
    expect(reading.ok && reading.archive.records.questions.some(({ id }) => id === question.id)).toBe(false)
    expect(strFromU8(await archive())).not.toContain(question.text)
  })
})

describe('a case coming in', () => {
  it('is shown before anything is written, and then is the same case: records, authors, times, codes, log', async () => {
    const cookie = await receiving()
    const file = await archive()
    const shown = CaseArchivePreview.parse(
      await (await elsewhere.send(`${archivesOf('clinic')}/preview`, file, cookie)).json(),
    )
    expect(shown).toMatchObject({ caseId: heron, label: 'Heron', standing: 'new' })
    expect(shown.kinds.every(({ inArchive, onlyInArchive }) => inArchive === onlyInArchive)).toBe(true)
    expect(await elsewhere.store.listCases()).toEqual([])

    const answer = await elsewhere.send(archivesOf('clinic'), file, cookie)
    expect(answer.status).toBe(201)
    expect(CaseSummary.parse(await answer.json())).toMatchObject({ id: heron, label: 'Heron', role: 'team' })
    const before = readArchive(file)
    const after = readArchive(await bytesOf(await elsewhere.get(`/api/cases/${heron}/export/archive`, cookie)))
    if (!before.ok || !after.ok) throw new Error('both archives are read')
    expect(after.archive.records).toEqual(before.archive.records)
    expect(after.archive.manifest.codes).toEqual(before.archive.manifest.codes)
    expect(after.archive.people).toEqual(before.archive.people)
    expect(after.archive.pictures).toEqual(before.archive.pictures)
    expect(after.archive.pictures.size).toBe(2)
    const [ours, theirs] = await Promise.all(
      [here.get(photo, team), elsewhere.get(photo, cookie)].map(async (answer) => bytesOf(await answer)),
    )
    expect(theirs).toEqual(ours)
    for (const document of ['record', 'floor'] as const) {
      expect(after.archive.documents[document].lines).toEqual(before.archive.documents[document].lines)
      expect(await elsewhere.store.timeline(`${document}.${heron}`)).toEqual(
        await here.store.timeline(`${document}.${heron}`),
      )
      expect((await elsewhere.store.load(`${document}.${heron}`)).clientOwners).toEqual(
        (await here.store.load(`${document}.${heron}`)).clientOwners,
      )
    }
  })

  it('is not taken in twice, and told as the same', async () => {
    const cookie = await receiving()
    const file = await archive()
    await elsewhere.send(archivesOf('clinic'), file, cookie)
    const shown = CaseArchivePreview.parse(
      await (await elsewhere.send(`${archivesOf('clinic')}/preview`, file, cookie)).json(),
    )
    expect(shown.standing).toBe('same')
    const again = await elsewhere.send(archivesOf('clinic'), file, cookie)
    expect([again.status, await codeOf(again)]).toEqual([409, 'case-taken'])
    expect(await elsewhere.store.listCases()).toHaveLength(1)
  })

  it('never changes a case that has gone on: it is compared, and taken in as a copy beside it', async () => {
    const cookie = await receiving()
    const file = await archive()
    await elsewhere.send(archivesOf('clinic'), file, cookie)
    const room = await elsewhere.hub.visit(`record.${heron}`)
    const header = room.tables.get('header', onlyId)
    await room.write(
      (doc) =>
        void (doc.getMap('header').get(onlyId) as { set(key: string, value: string): void }).set('summary', 'went on'),
      { participant: header?.author ?? '', role: 'team' },
      now().getTime(),
    )
    const shown = CaseArchivePreview.parse(
      await (await elsewhere.send(`${archivesOf('clinic')}/preview`, file, cookie)).json(),
    )
    expect(shown.standing).toBe('differs')
    expect(shown.kinds.find(({ kind }) => kind === 'header')).toMatchObject({ differs: 1, same: 0 })
    expect((await elsewhere.send(archivesOf('clinic'), file, cookie)).status).toBe(409)
    const copy = CaseSummary.parse(await (await elsewhere.send(`${archivesOf('clinic')}/copy`, file, cookie)).json())
    expect(copy.id).not.toBe(heron)
    expect(room.tables.get('header', onlyId)?.summary).toBe('went on')
    const copied = await elsewhere.hub.visit(`record.${copy.id}`)
    expect(copied.tables.get('header', onlyId)).toEqual(header)
  })

  it('is for moderator and team of the programme alone, judged before the file is read', async () => {
    await receiving()
    const file = await archive()
    const panel = await elsewhere.join('panel', { kind: 'programme', id: 'clinic' })
    for (const path of [archivesOf('clinic'), `${archivesOf('clinic')}/copy`, `${archivesOf('clinic')}/preview`]) {
      expect((await elsewhere.send(path, file, panel)).status).toBe(403)
      expect((await elsewhere.send(path, file)).status).toBe(401)
    }
    expect(await elsewhere.store.listCases()).toEqual([])
  })

  it.each([
    ['a truncated zip', async () => (await archive()).slice(0, 3000), 422, /cut short/],
    ['no zip', async () => new TextEncoder().encode('{"resourceType":"Bundle"}'), 422, /no zip file/],
    ['more than any case', async () => new Uint8Array(archiveLimits.bytes + 1), 413, /too large/],
  ])('with %s is refused with a sentence, and nothing is written', async (_, file, status, sentence) => {
    const cookie = await receiving()
    const bytes = await file()
    // A server that stops reading may cut the connection before its answer is read; it is then never a success.
    const answer = await elsewhere.send(archivesOf('clinic'), bytes, cookie).catch(() => undefined)
    if (answer !== undefined) {
      expect(answer.status).toBe(status)
      expect(ApiError.parse(await answer.json()).error.message).toMatch(sentence)
    } else expect(status).toBe(413)
    expect(await elsewhere.store.listCases()).toEqual([])
    expect((await elsewhere.get('/healthz')).status).toBe(200)
  })
})

describe('erasing a case', () => {
  const erase = (label: string, by: string) => here.post(`/api/cases/${heron}/erase`, { label }, by)

  it('is for the owner alone, and only with the name of the case typed', async () => {
    const moderator = await here.join('moderator', { kind: 'programme', id: 'demo' })
    expect((await erase('Heron', moderator)).status).toBe(403)
    const wrong = await erase('Herron', owner)
    expect([wrong.status, await codeOf(wrong)]).toEqual([409, 'label-differs'])
    expect(await here.store.findCase(heron)).not.toBeNull()
  })

  it('leaves a receipt with numbers, and nothing of the patient', async () => {
    const { updates } = await here.store.load(`record.${heron}`)
    const { updates: onFloor } = await here.store.load(`floor.${heron}`)
    const receipt = ErasureReceipt.parse(await (await erase('Heron', owner)).json())
    expect(receipt).toMatchObject({ caseId: heron, programme: 'demo', at: now().toISOString(), by: { name: 'Owner' } })
    expect(receipt.counts.updates).toBe(updates.length + onFloor.length)
    const kept = ErasureList.parse(await (await here.get('/api/erasures', owner)).json())
    expect(kept.erasures).toEqual([receipt])
    expect(JSON.stringify(kept)).not.toContain('Heron')
    expect((await here.get('/api/erasures', team)).status).toBe(403)
    expect(await here.store.findCase(heron)).toBeNull()
  })

  it('is told to whoever opens the case, and to a browser that asks about its copies', async () => {
    await erase('Heron', owner)
    const answer = await here.get(`/api/cases/${heron}`, team)
    expect([answer.status, await codeOf(answer)]).toEqual([410, 'case-erased'])
    const held = await here.post('/api/erasures/among', { cases: [heron, 'demo-plover', 'never'] }, team)
    expect(CasesHeld.parse(await held.json())).toEqual({ cases: [heron] })
  })

  it('stays erased: an archive of it comes back as a copy alone', async () => {
    const file = await archive()
    await erase('Heron', owner)
    const shown = CaseArchivePreview.parse(await (await here.send(`${archivesOf('demo')}/preview`, file, team)).json())
    expect(shown).toMatchObject({ standing: 'erased', erasedAt: now().toISOString() })
    expect(await codeOf(await here.send(archivesOf('demo'), file, team))).toBe('case-taken')
    expect((await here.send(`${archivesOf('demo')}/copy`, file, team)).status).toBe(201)
  })
})

it('an archive says which files it has', async () => {
  const bytes = await archive()
  const reading = readArchive(bytes)
  const photographs = reading.ok ? reading.archive.records.pictures.map(pictureFile) : []
  expect(photographs).toHaveLength(2)
  const files = Object.keys(unzipSync(bytes))
  expect(files.sort()).toEqual([...Object.values(archiveFiles), ...photographs].sort())
})

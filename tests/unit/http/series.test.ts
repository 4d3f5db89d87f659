import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ExperienceAnswer } from '../../../lib/interchange/experience.ts'
import { SeriesAnswer } from '../../../lib/interchange/series.ts'
import { inventedEar } from '../../../server/demo/invented-ear.ts'
import { drawsFrom, inventedOutcome } from '../../../server/demo/invented-series.ts'
import { type ApiInstallation, startApiInstallation } from '../../support/api-installation.ts'

const now = new Date('2026-05-04T10:00:00.000Z')
let api: ApiInstallation
beforeEach(async () => {
  api = await startApiInstallation(() => now)
  const draw = drawsFrom(1)
  for (const programme of ['day', 'other']) {
    await api.store.createProgramme({ id: programme, label: programme, createdAt: now.toISOString() })
    for (let n = 0; n < 40; n++) {
      const id = `${programme}-${n}`
      await api.store.createCase({ id, programme, label: id, rank: `a${n}`, createdAt: now.toISOString() })
      await api.store.saveOutcome(id, inventedOutcome(id, inventedEar(draw), '2026-05-04'))
    }
  }
})
afterEach(() => api.stop())

const day = { kind: 'programme', id: 'day' } as const
const answerTo = async (cookie: string, query = '') => {
  const response = await api.get(`/api/series${query}`, cookie)
  return { status: response.status, body: await response.json() }
}

describe('the series', () => {
  it('adds up the cases that the caller may see, and no other', async () => {
    const ofDay = SeriesAnswer.parse((await answerTo(await api.join('team', day))).body)
    expect(ofDay.ears).toMatchObject({ cases: 40, empty: 0, filteredOut: 0, secondOfPatient: 0, n: 40 })
    const all = SeriesAnswer.parse((await answerTo(await api.join('moderator', { kind: 'installation' }))).body)
    expect(all.ears.n).toBe(80)
  })

  it('is nothing to those who were invited to watch', async () => {
    expect((await answerTo('')).status).toBe(401)
    for (const role of ['panel', 'observer'] as const)
      expect((await answerTo(await api.join(role, day))).status).toBe(403)
  })

  it('follows what changes in a case, and forgets one that is erased', async () => {
    const cookie = await api.join('team', day)
    const before = SeriesAnswer.parse((await answerTo(cookie)).body)
    await api.store.saveOutcome('day-0', {
      ...inventedOutcome('day-0', inventedEar(drawsFrom(9)), '2026-05-04'),
      ear: null,
      visits: [],
    })
    expect(SeriesAnswer.parse((await answerTo(cookie)).body).ears).toMatchObject({ empty: 1, n: before.ears.n - 1 })
    await api.store.eraseCase('day-1', { id: 'receipt', by: 'owner', at: now.toISOString() })
    expect(SeriesAnswer.parse((await answerTo(cookie)).body).ears).toMatchObject({ cases: 39, n: before.ears.n - 2 })
  })

  it('names no case and no patient', async () => {
    const { body } = await answerTo(await api.join('team', day))
    expect(JSON.stringify(body)).not.toMatch(/day-\d/)
  })

  it('leaves out one case that cannot be read, names it, and says so in the log', async () => {
    const cookie = await api.join('team', day)
    const broken = inventedOutcome('day-0', inventedEar(drawsFrom(9)), '2026-05-04')
    const [before, ...visits] = broken.visits
    if (before === undefined) throw new Error('no visit')
    await api.store.saveOutcome('day-0', { ...broken, visits: [{ ...before, air: '500=35 1000=loud' }, ...visits] })
    const { unreadable, ears } = SeriesAnswer.parse((await answerTo(cookie)).body)
    expect(unreadable).toEqual([{ id: 'day-0', label: 'day-0' }])
    expect(ears).toMatchObject({ cases: 40, empty: 0, n: 39 })
    expect(api.logged()).toMatch(/"event":"series-case-unreadable","case":"day-0"/)
    expect((await api.get('/api/cases/day-3/experience', cookie)).status).toBe(200)
    await api.store.saveOutcome('day-0', broken)
    expect(SeriesAnswer.parse((await answerTo(cookie)).body)).toMatchObject({ unreadable: [], ears: { n: 40 } })
  })

  it.each([
    ['a level that no audiometer has', { air: '500=999' }],
    ['an occasion that is none', { occasion: 'next-week' }],
    ['a score above all words', { wordsPercent: 140 }],
  ])('takes no result from a case with %s', async (_, wrong) => {
    const outcome = inventedOutcome('day-0', inventedEar(drawsFrom(9)), '2026-05-04')
    const visits = outcome.visits.map((visit) => ({ ...visit, ...wrong }) as typeof visit)
    await api.store.saveOutcome('day-0', { ...outcome, visits })
    const { status, body } = await answerTo(await api.join('team', day))
    expect(status).toBe(200)
    expect(SeriesAnswer.parse(body).unreadable).toHaveLength(1)
  })

  it('gives every caller their own cases also when it has just answered another', async () => {
    const asked = async (cookie: string) => SeriesAnswer.parse((await answerTo(cookie)).body).ears.n
    const [owner, team] = [await api.join('moderator', { kind: 'installation' }), await api.join('team', day)]
    expect(await Promise.all([asked(owner), asked(team), asked(owner)])).toEqual([80, 40, 80])
  })

  it('takes several tags, and only the cases that have all of them', async () => {
    const cookie = await api.join('team', day)
    const outcome = inventedOutcome('day-0', inventedEar(drawsFrom(9)), '2026-05-04')
    await api.store.saveOutcome('day-0', { ...outcome, tags: 'first word,second word' })
    await api.store.saveOutcome('day-1', { ...outcome, patient: 'day-1', tags: 'first word' })
    const earsWith = async (query: string) => SeriesAnswer.parse((await answerTo(cookie, query)).body).ears.n
    expect(await earsWith('?tag=first+word')).toBe(2)
    expect(await earsWith('?tag=first+word&tag=second+word')).toBe(1)
  })

  it('counts two ears of one patient once, and says so', async () => {
    const cookie = await api.join('team', day)
    await api.store.saveOutcome('day-1', inventedOutcome(' DAY-0', inventedEar(drawsFrom(3)), '2026-05-04'))
    expect(SeriesAnswer.parse((await answerTo(cookie)).body).ears).toMatchObject({ secondOfPatient: 1, n: 39 })
  })

  it.each([
    ['?site=elbow', /"site" cannot be "elbow"/],
    ['?colour=red', /"colour"/],
    ['?from=2026-13-01', /"from" cannot be "2026-13-01"/],
    ['?from=2026-02-01&to=2026-01-01', /"to" cannot be "2026-01-01"/],
    ['?ear=left&ear=right', /"ear"/],
    ['?first=skull&second=skull', /"second"/],
  ])('refuses the filter %s by its name', async (query, message) => {
    const { status, body } = await answerTo(await api.join('team', day), query)
    expect(status).toBe(400)
    expect(body.error.message).toMatch(message)
  })

  it('gives no interval to fewer than five ears', async () => {
    const cookie = await api.join('team', day)
    const days = (await api.store.outcomesSince(0, 100)).filter(({ caseId }) => caseId.startsWith('day-'))
    const latest = days
      .map(({ operatedOn }) => operatedOn ?? '')
      .toSorted()
      .at(-3)
    const { ears, audiograms } = SeriesAnswer.parse((await answerTo(cookie, `?from=${latest}`)).body)
    expect(ears.n).toBe(3)
    for (const { byFrequency } of audiograms)
      for (const { low, high, sd } of byFrequency) expect([low, high, sd]).toEqual([null, null, null])
  })
})

describe('what a forecast learns from', () => {
  it('has the gains of other patients, without a word of whose they are', async () => {
    const response = await api.get('/api/cases/day-3/experience', await api.join('team', day))
    const { ears } = ExperienceAnswer.parse(await response.json())
    expect(ears.length).toBeGreaterThan(20)
    expect(ears.length).toBeLessThan(40)
    expect(JSON.stringify(ears)).not.toMatch(/day-/)
    expect((await api.get('/api/cases/day-3/experience', await api.join('panel', day))).status).toBe(403)
    expect((await api.get('/api/cases/other-3/experience', await api.join('team', day))).status).toBe(403)
  })

  it('leaves out the patient of the case, also under another case', async () => {
    const cookie = await api.join('team', day)
    const before = ExperienceAnswer.parse(await (await api.get('/api/cases/day-3/experience', cookie)).json())
    const gave = (await api.store.outcomesSince(0, 100)).find(
      ({ caseId, visits }) => caseId !== 'day-3' && caseId.startsWith('day-') && visits.length > 1,
    )
    if (gave === undefined) throw new Error('no ear with a visit')
    const { caseId, revision: _, ...outcome } = gave
    await api.store.saveOutcome(caseId, { ...outcome, patient: 'Day-3' })
    const after = ExperienceAnswer.parse(await (await api.get('/api/cases/day-3/experience', cookie)).json())
    expect(after.ears.length).toBe(before.ears.length - 1)
  })
})

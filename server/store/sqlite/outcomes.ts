import type { CaseOutcome, VisitOutcome } from '../../../lib/interchange/outcome-columns.ts'
import { StoreConflict } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type CaseRow = Omit<CaseOutcome, 'visits'> & { readonly caseId: string; readonly revision: number }
type VisitRow = VisitOutcome & { readonly caseId: string }

/** What each case gave to the series. */
export function outcomes(db: Db): Synchronous<'saveOutcome' | 'outcomesSince' | 'casesWithoutOutcome'> {
  const nextRevision = db.prepare<[], { last: number }>('UPDATE outcome_revision SET last = last + 1 RETURNING last')
  const isCase = db.prepare<[string], { id: string }>('SELECT id FROM cases WHERE id = ?')
  const putCase = db.prepare(
    `INSERT OR REPLACE INTO case_outcomes (case_id, revision, patient, ear, device_class, coupling_site, pathology,
       malleus, incus, stapes, operated_on, tags, forecast)
     VALUES (@caseId, @revision, @patient, @ear, @deviceClass, @couplingSite, @pathology,
       @malleus, @incus, @stapes, @operatedOn, @tags, @forecast)`,
  )
  const dropVisits = db.prepare<[string]>('DELETE FROM visit_outcomes WHERE case_id = ?')
  const putVisit = db.prepare(
    `INSERT INTO visit_outcomes (case_id, ear, visit, place, occasion, year, held_on, air, bone, sound_field, aided, words_percent)
     VALUES (@caseId, @ear, @visit, @place, @occasion, @year, @heldOn, @air, @bone, @soundField, @aided, @wordsPercent)`,
  )
  const casesSince = db.prepare<[number, number], CaseRow>(
    `SELECT case_id AS caseId, revision, patient, ear, device_class AS deviceClass, coupling_site AS couplingSite,
       pathology, malleus, incus, stapes, operated_on AS operatedOn, tags, forecast
     FROM case_outcomes WHERE revision > ? ORDER BY revision LIMIT ?`,
  )
  const visitsBetween = db.prepare<[number, number], VisitRow>(
    `SELECT v.case_id AS caseId, v.visit, v.occasion, v.year, v.held_on AS heldOn, v.air, v.bone,
       v.sound_field AS soundField, v.aided, v.words_percent AS wordsPercent
     FROM case_outcomes c JOIN visit_outcomes v ON v.case_id = c.case_id
     WHERE c.revision > ? AND c.revision <= ? ORDER BY c.revision, v.place`,
  )
  const without = db.prepare<[number], { id: string }>(
    `SELECT id FROM cases WHERE NOT EXISTS (SELECT 1 FROM case_outcomes WHERE case_id = cases.id) ORDER BY id LIMIT ?`,
  )
  return {
    saveOutcome: (caseId, { visits, ...columns }) => {
      if (isCase.get(caseId) === undefined) throw new StoreConflict(`No case ${caseId}.`)
      const revision = nextRevision.get()?.last
      putCase.run({ ...columns, caseId, revision })
      dropVisits.run(caseId)
      for (const [place, visit] of visits.entries()) putVisit.run({ ...visit, caseId, ear: columns.ear, place })
    },
    outcomesSince: (revision, limit) => {
      const cases = casesSince.all(revision, limit)
      const visits = visitsByCase(visitsBetween.all(revision, cases.at(-1)?.revision ?? revision))
      return cases.map((columns) => ({ ...columns, visits: visits.get(columns.caseId) ?? [] }))
    },
    casesWithoutOutcome: (limit) => without.all(limit).map(({ id }) => id),
  }
}

function visitsByCase(rows: readonly VisitRow[]): ReadonlyMap<string, readonly VisitOutcome[]> {
  const byCase = new Map<string, VisitOutcome[]>()
  for (const { caseId, ...visit } of rows) {
    const visits = byCase.get(caseId)
    if (visits === undefined) byCase.set(caseId, [visit])
    else visits.push(visit)
  }
  return byCase
}

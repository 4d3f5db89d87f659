import type { CaseOutcome, VisitOutcome } from '../../../lib/interchange/outcome-columns.ts'
import { type Store, StoreConflict } from '../store.ts'
import type { Database } from './database.ts'

type CaseRow = Omit<CaseOutcome, 'visits'> & {
  readonly caseId: string
  readonly revision: number
  readonly visits: readonly VisitOutcome[]
}

/** What each case gave to the series. */
export function outcomes(db: Database): Pick<Store, 'saveOutcome' | 'outcomesSince' | 'casesWithoutOutcome'> {
  return {
    saveOutcome: (caseId, { visits, ...columns }) =>
      db.whole(async (one) => {
        // The one row of revisions is held until the commit: whoever reads a revision has all before it.
        const [next] = await one.rows<{ last: number }>('UPDATE outcome_revision SET last = last + 1 RETURNING last')
        // Held as well, so that an erasure comes before or after all of this.
        const found = await one.rows('SELECT id FROM cases WHERE id = $1 FOR SHARE', [caseId])
        if (found.length === 0) throw new StoreConflict(`No case ${caseId}.`)
        const { patient, ear, deviceClass, couplingSite, pathology, malleus, incus, stapes, operatedOn } = columns
        await one.change('DELETE FROM case_outcomes WHERE case_id = $1', [caseId])
        await one.change('DELETE FROM visit_outcomes WHERE case_id = $1', [caseId])
        await one.change(
          `INSERT INTO case_outcomes (case_id, revision, patient, ear, device_class, coupling_site, pathology,
             malleus, incus, stapes, operated_on, tags, forecast)
           VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)`,
          [
            caseId,
            next?.last,
            patient,
            ear,
            deviceClass,
            couplingSite,
            pathology,
            malleus,
            incus,
            stapes,
            operatedOn,
            columns.tags,
            columns.forecast,
          ],
        )
        await one.change(
          `INSERT INTO visit_outcomes (case_id, ear, visit, place, occasion, year, held_on, air, bone, sound_field, aided,
             words_percent)
           SELECT $1, $2, v.visit, v.place, v.occasion, v.year, v."heldOn", v.air, v.bone, v."soundField", v.aided,
             v."wordsPercent"
           FROM jsonb_to_recordset($3::jsonb) AS v (visit text, place integer, occasion text, year integer, "heldOn" text,
             air text, bone text, "soundField" text, aided text, "wordsPercent" double precision)`,
          [caseId, ear, JSON.stringify(visits.map((visit, place) => ({ ...visit, place })))],
        )
      }),
    outcomesSince: (revision, limit) =>
      db.rows<CaseRow>(
        `SELECT c.case_id AS "caseId", c.revision, c.patient, c.ear, c.device_class AS "deviceClass",
           c.coupling_site AS "couplingSite", c.pathology, c.malleus, c.incus, c.stapes, c.operated_on AS "operatedOn",
           c.tags, c.forecast,
           coalesce((SELECT jsonb_agg(jsonb_build_object('visit', v.visit, 'occasion', v.occasion, 'year', v.year,
             'heldOn', v.held_on, 'air', v.air, 'bone', v.bone, 'soundField', v.sound_field, 'aided', v.aided,
             'wordsPercent', v.words_percent) ORDER BY v.place)
             FROM visit_outcomes v WHERE v.case_id = c.case_id), '[]'::jsonb) AS visits
         FROM case_outcomes c WHERE c.revision > $1 ORDER BY c.revision LIMIT $2`,
        [revision, limit],
      ),
    casesWithoutOutcome: async (limit) => {
      const rows = await db.rows<{ id: string }>(
        `SELECT id FROM cases WHERE NOT EXISTS (SELECT 1 FROM case_outcomes WHERE case_id = cases.id)
         ORDER BY id LIMIT $1`,
        [limit],
      )
      return rows.map(({ id }) => id)
    },
  }
}

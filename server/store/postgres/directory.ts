import { generateNKeysBetween } from 'fractional-indexing'
import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import {
  documentsOfCase,
  type Programme,
  type Store,
  StoreConflict,
  type StoredCase,
  type StoredProgramme,
} from '../store.ts'
import type { Database, Db } from './database.ts'

type DirectoryOperations = Pick<
  Store,
  | 'createProgramme'
  | 'listProgrammes'
  | 'bringOn'
  | 'orderCases'
  | 'saveSlot'
  | 'createCase'
  | 'findCase'
  | 'listCases'
  | 'saveProjection'
  | 'listAuthors'
>

const caseColumns = `id, programme, label, rank, created_at AS "createdAt", phase, ear, device_class AS "deviceClass",
  coupling_site AS "couplingSite", open_questions AS "openQuestions", contingencies_met AS "contingenciesMet",
  next_visit_due AS "nextVisitDue", updated_at AS "updatedAt", planned_at AS "plannedAt", break_before AS "breakBefore"`

/** Programmes and cases, each case with its projection. */
export const directory = (db: Database): DirectoryOperations => ({
  ...programmeRows(db),
  ...dayOrder(db),
  ...caseRows(db),
})

type ProgrammeRow = Programme & { isOn: 0 | 1; lastOn: string | null; since: string | null }

/** An erased case is on no more. */
const toProgramme = ({ isOn, lastOn, since, ...programme }: ProgrammeRow): StoredProgramme => ({
  ...programme,
  onNow: { isOn: isOn === 1 && lastOn !== null, lastOn, since },
})

function programmeRows(db: Db): Pick<Store, 'createProgramme' | 'listProgrammes' | 'bringOn'> {
  return {
    createProgramme: async ({ id, label, createdAt }) => {
      await db.change('INSERT INTO programmes (id, label, created_at) VALUES ($1, $2, $3)', [id, label, createdAt])
    },
    listProgrammes: async () => {
      const rows = await db.rows<ProgrammeRow>(
        `SELECT id, label, created_at AS "createdAt", is_on AS "isOn", last_on AS "lastOn", on_since AS since
         FROM programmes ORDER BY created_at, id`,
      )
      return rows.map(toProgramme)
    },
    bringOn: async (programme, caseId, at) => {
      const changed =
        caseId === null
          ? await db.change('UPDATE programmes SET is_on = 0, on_since = $2 WHERE id = $1', [programme, at])
          : await db.change(
              `UPDATE programmes SET last_on = $3, is_on = 1, on_since = $2
               WHERE id = $1 AND EXISTS (SELECT 1 FROM cases WHERE id = $3 AND programme = $1)`,
              [programme, at, caseId],
            )
      if (changed === 0) throw new StoreConflict(`No programme ${programme} with a case ${caseId}.`)
    },
  }
}

/** Order and planned times of a programme's cases. */
function dayOrder(db: Database): Pick<Store, 'orderCases' | 'saveSlot'> {
  return {
    orderCases: (programme, ids) =>
      db.whole(async (one) => {
        const rows = await one.rows<{ id: string }>(
          'SELECT id FROM cases WHERE programme = $1 ORDER BY id FOR UPDATE',
          [programme],
        )
        const there = new Set(rows.map(({ id }) => id))
        if (there.size !== ids.length || !ids.every((id) => there.delete(id)))
          throw new StoreConflict(`The order does not name each case of programme ${programme} once.`)
        await one.change(
          `UPDATE cases SET rank = wanted.rank
           FROM unnest($1::text[], $2::text[]) AS wanted (id, rank) WHERE cases.id = wanted.id`,
          [ids, generateNKeysBetween(null, null, ids.length)],
        )
      }),
    saveSlot: async (caseId, { plannedAt, breakBefore }) => {
      const sql = 'UPDATE cases SET planned_at = $2, break_before = $3 WHERE id = $1'
      if ((await db.change(sql, [caseId, plannedAt, breakBefore])) === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
  }
}

function caseRows(db: Db): Pick<Store, 'createCase' | 'findCase' | 'listCases' | 'saveProjection' | 'listAuthors'> {
  return {
    createCase: async ({ id, programme, label, rank, createdAt }) => {
      await db.change(
        `INSERT INTO cases (id, programme, label, rank, created_at, updated_at) VALUES ($1, $2, $3, $4, $5, $5)`,
        [id, programme, label, rank, createdAt],
      )
    },
    findCase: async (id) =>
      (await db.rows<StoredCase>(`SELECT ${caseColumns} FROM cases WHERE id = $1`, [id]))[0] ?? null,
    listCases: () => db.rows<StoredCase>(`SELECT ${caseColumns} FROM cases ORDER BY programme, rank, id`),
    saveProjection: async (caseId, projection) => {
      const { label, phase, ear, deviceClass, couplingSite, openQuestions, contingenciesMet, nextVisitDue, updatedAt } =
        projection
      const changed = await db.change(
        `UPDATE cases SET label = $2, phase = $3, ear = $4, device_class = $5, coupling_site = $6,
           open_questions = $7, contingencies_met = $8, next_visit_due = $9, updated_at = $10
         WHERE id = $1`,
        [
          caseId,
          label,
          phase,
          ear,
          deviceClass,
          couplingSite,
          openQuestions,
          contingenciesMet,
          nextVisitDue,
          updatedAt,
        ],
      )
      if (changed === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
    listAuthors: async (caseId) => {
      const rows = await db.rows<{
        id: ParticipantId
        name: string
        affiliation: string
        createdAt: string
        role: Role
      }>(
        `SELECT p.id, p.name, p.affiliation, p.created_at AS "createdAt", min(o.role) AS role
         FROM client_owners o JOIN participants p ON p.id = o.participant
         WHERE o.document = ANY ($1) GROUP BY p.id ORDER BY p.created_at, p.id`,
        [documentsOfCase(caseId)],
      )
      return rows.map(({ role, ...participant }) => ({ participant, role }))
    },
  }
}

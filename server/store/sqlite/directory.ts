import { generateNKeysBetween } from 'fractional-indexing'
import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import {
  documentsOfCase,
  type NewCase,
  type Programme,
  StoreConflict,
  type StoredCase,
  type StoredProgramme,
} from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type DirectoryOperations = Synchronous<
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

const caseColumns = `id, programme, label, rank, created_at AS createdAt, phase, ear, device_class AS deviceClass,
  coupling_site AS couplingSite, open_questions AS openQuestions, contingencies_met AS contingenciesMet,
  next_visit_due AS nextVisitDue, updated_at AS updatedAt, planned_at AS plannedAt, break_before AS breakBefore`

/** Programmes and cases, each case with its projection. */
export const directory = (db: Db): DirectoryOperations => ({ ...programmeRows(db), ...dayOrder(db), ...caseRows(db) })

type ProgrammeRow = Programme & { isOn: 0 | 1; lastOn: string | null; since: string | null }

/** An erased case is on no more. */
const toProgramme = ({ isOn, lastOn, since, ...programme }: ProgrammeRow): StoredProgramme => ({
  ...programme,
  onNow: { isOn: isOn === 1 && lastOn !== null, lastOn, since },
})

function programmeRows(db: Db): Synchronous<'createProgramme' | 'listProgrammes' | 'bringOn'> {
  const insertProgramme = db.prepare<Programme>(
    'INSERT INTO programmes (id, label, created_at) VALUES (@id, @label, @createdAt)',
  )
  const programmes = db.prepare<[], ProgrammeRow>(
    `SELECT id, label, created_at AS createdAt, is_on AS isOn, last_on AS lastOn, on_since AS since
     FROM programmes ORDER BY created_at, id`,
  )
  const putOn = db.prepare(
    `UPDATE programmes SET last_on = @caseId, is_on = 1, on_since = @at
     WHERE id = @programme AND EXISTS (SELECT 1 FROM cases WHERE id = @caseId AND programme = @programme)`,
  )
  const putNone = db.prepare('UPDATE programmes SET is_on = 0, on_since = @at WHERE id = @programme')
  return {
    createProgramme: (programme) => {
      insertProgramme.run(programme)
    },
    listProgrammes: () => programmes.all().map(toProgramme),
    bringOn: (programme, caseId, at) => {
      const { changes } = caseId === null ? putNone.run({ programme, at }) : putOn.run({ programme, caseId, at })
      if (changes === 0) throw new StoreConflict(`No programme ${programme} with a case ${caseId}.`)
    },
  }
}

/** Order and planned times of a programme's cases. */
function dayOrder(db: Db): Synchronous<'orderCases' | 'saveSlot'> {
  const idsIn = db.prepare<[string], { id: string }>('SELECT id FROM cases WHERE programme = ?')
  const setRank = db.prepare<[string, string]>('UPDATE cases SET rank = ? WHERE id = ?')
  const setSlot = db.prepare('UPDATE cases SET planned_at = @plannedAt, break_before = @breakBefore WHERE id = @caseId')
  return {
    orderCases: (programme, ids) => {
      const there = new Set(idsIn.all(programme).map(({ id }) => id))
      if (there.size !== ids.length || !ids.every((id) => there.delete(id)))
        throw new StoreConflict(`The order does not name each case of programme ${programme} once.`)
      const ranks = generateNKeysBetween(null, null, ids.length)
      for (const [index, id] of ids.entries()) setRank.run(ranks[index] ?? '', id)
    },
    saveSlot: (caseId, slot) => {
      if (setSlot.run({ caseId, ...slot }).changes === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
  }
}

function caseRows(db: Db): Synchronous<'createCase' | 'findCase' | 'listCases' | 'saveProjection' | 'listAuthors'> {
  const insertCase = db.prepare<NewCase>(
    `INSERT INTO cases (id, programme, label, rank, created_at, updated_at)
     VALUES (@id, @programme, @label, @rank, @createdAt, @createdAt)`,
  )
  const caseById = db.prepare<[string], StoredCase>(`SELECT ${caseColumns} FROM cases WHERE id = ?`)
  const cases = db.prepare<[], StoredCase>(`SELECT ${caseColumns} FROM cases ORDER BY programme, rank, id`)
  const updateProjection = db.prepare(
    `UPDATE cases SET label = @label, phase = @phase, ear = @ear, device_class = @deviceClass,
       coupling_site = @couplingSite, open_questions = @openQuestions, contingencies_met = @contingenciesMet,
       next_visit_due = @nextVisitDue, updated_at = @updatedAt
     WHERE id = @caseId`,
  )
  const authors = db.prepare<
    [string, string],
    { id: ParticipantId; name: string; affiliation: string; createdAt: string; role: Role }
  >(
    `SELECT p.id, p.name, p.affiliation, p.created_at AS createdAt, min(o.role) AS role
     FROM client_owners o JOIN participants p ON p.id = o.participant
     WHERE o.document IN (?, ?) GROUP BY p.id ORDER BY p.created_at, p.id`,
  )

  return {
    createCase: (created) => {
      insertCase.run(created)
    },
    findCase: (id) => caseById.get(id) ?? null,
    listCases: () => cases.all(),
    saveProjection: (caseId, projection) => {
      if (updateProjection.run({ caseId, ...projection }).changes === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
    listAuthors: (caseId) =>
      authors.all(...documentsOfCase(caseId)).map(({ role, ...participant }) => ({ participant, role })),
  }
}

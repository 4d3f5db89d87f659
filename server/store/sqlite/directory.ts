import type { ParticipantId } from '../../../lib/board/identity.ts'
import type { Role } from '../../../lib/board/roles.ts'
import { documentsOfCase, type NewCase, type Programme, StoreConflict, type StoredCase } from '../store.ts'
import type { Db } from './database.ts'
import type { Synchronous } from './operations.ts'

type DirectoryOperations = Synchronous<
  | 'createProgramme'
  | 'listProgrammes'
  | 'createCase'
  | 'findCase'
  | 'listCases'
  | 'saveProjection'
  | 'eraseCase'
  | 'listAuthors'
>

const caseColumns = `id, programme, label, rank, created_at AS createdAt, phase, ear, device_class AS deviceClass,
  coupling_site AS couplingSite, open_questions AS openQuestions, contingencies_met AS contingenciesMet,
  next_visit_due AS nextVisitDue, updated_at AS updatedAt`

/** Programmes and cases, each case with its projection. */
export function directory(db: Db): DirectoryOperations {
  const insertProgramme = db.prepare<Programme>(
    'INSERT INTO programmes (id, label, created_at) VALUES (@id, @label, @createdAt)',
  )
  const programmes = db.prepare<[], Programme>(
    'SELECT id, label, created_at AS createdAt FROM programmes ORDER BY created_at, id',
  )
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
  const erasures = ['updates', 'snapshots', 'client_owners'].map((table) =>
    db.prepare<[string]>(`DELETE FROM ${table} WHERE document = ?`),
  )
  const eraseInvitations = db.prepare<[string]>("DELETE FROM invitations WHERE scope_kind = 'case' AND scope_id = ?")
  const eraseRow = db.prepare<[string]>('DELETE FROM cases WHERE id = ?')

  return {
    createProgramme: (programme) => {
      insertProgramme.run(programme)
    },
    listProgrammes: () => programmes.all(),
    createCase: (created) => {
      insertCase.run(created)
    },
    findCase: (id) => caseById.get(id) ?? null,
    listCases: () => cases.all(),
    saveProjection: (caseId, projection) => {
      if (updateProjection.run({ caseId, ...projection }).changes === 0) throw new StoreConflict(`No case ${caseId}.`)
    },
    eraseCase: (id) => {
      for (const document of documentsOfCase(id)) for (const erase of erasures) erase.run(document)
      eraseInvitations.run(id)
      if (eraseRow.run(id).changes === 0) throw new StoreConflict(`No case ${id}.`)
    },
    listAuthors: (caseId) =>
      authors.all(...documentsOfCase(caseId)).map(({ role, ...participant }) => ({ participant, role })),
  }
}

import { strToU8, zipSync } from 'fflate'
import { mayInProgramme } from '../../../lib/board/programme-rights.ts'
import { rolesThatExchange } from '../../../lib/board/roles.ts'
import { archiveLimits } from '../../../lib/interchange/archive/manifest.ts'
import type { ArchiveFault } from '../../../lib/interchange/archive/read-archive.ts'
import { caseBundle } from '../../../lib/interchange/fhir/write-bundle.ts'
import { statisticsTables } from '../../../lib/interchange/statistics-csv.ts'
import { sentenceOfArchiveFault } from '../../exchange/archive-sentences.ts'
import { visibleCases } from '../../meeting/programme-view.ts'
import type { Access } from '../../people/access.ts'
import type { Caller } from '../../people/people.ts'
import type { StoredCase } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { created, ok, type Reply, refuse } from '../reply.ts'
import { type Ask, get, type Route, signedIn, type Upload, upload } from '../routes.ts'

/** A case out of this installation, for those who work on it, and in from another one. */
export function exchangeRoutes({ store, exchange, now, programmeChanged }: ApiParts): readonly Route[] {
  const ofCase =
    (handle: (place: StoredCase) => Promise<Reply>) =>
    async ({ caller, params }: Ask<unknown, Caller>): Promise<Reply> => {
      const place = await store.findCase(params.id ?? '')
      const role = place === null ? undefined : caller.access.roleIn(place)
      if (place === null || role === undefined || !rolesThatExchange.includes(role)) return refuse('not-permitted')
      return handle(place)
    }
  const intoProgramme =
    (handle: (bytes: Uint8Array, programme: string, access: Access) => Promise<Reply>) =>
    async ({ caller, params, body }: Ask<Upload, Caller>): Promise<Reply> => {
      const id = params.id ?? ''
      if (!mayInProgramme('takeIn', caller.access.roleInProgramme(id))) return refuse('not-permitted')
      if (!(await store.listProgrammes()).some((programme) => programme.id === id)) return refuse('not-found')
      const file = await body.read()
      if (!file.ok) return refuse('too-large')
      // A link as slow as its sender likes: the right may have ended since the first byte.
      const accessNow = await caller.accessNow()
      if (!mayInProgramme('takeIn', accessNow.roleInProgramme(id))) return refuse('not-permitted')
      return handle(file.bytes, id, accessNow)
    }
  const takeIn = (as: 'original' | 'copy') =>
    intoProgramme(async (bytes, programme, access) => {
      const made = await exchange.takeIn(bytes, programme, as)
      if (made === 'taken') return refuse('case-taken')
      if ('code' in made) return refuseArchive(made)
      programmeChanged(programme)
      return created(visibleCases([made], access)[0])
    })
  return [
    get(
      '/api/cases/:id/export/fhir',
      signedIn,
      ofCase(async (place) => {
        const { records } = await exchange.recordsOf(place.id)
        if (records.header.length === 0) return refuse('no-header')
        const text = JSON.stringify(caseBundle(records, now().toISOString()), null, 1)
        return download(strToU8(text), `case-${place.id}.fhir.json`, 'application/fhir+json; charset=utf-8')
      }),
    ),
    get(
      '/api/cases/:id/export/statistics',
      signedIn,
      ofCase(async (place) => {
        const { records, operatedOn } = await exchange.recordsOf(place.id)
        const tables = statisticsTables(place.id, records, operatedOn)
        const files = Object.entries(tables).map(([name, text]) => [`${name}.csv`, strToU8(text)])
        return download(zipSync(Object.fromEntries(files)), `case-${place.id}-statistics.zip`, 'application/zip')
      }),
    ),
    get(
      '/api/cases/:id/export/archive',
      signedIn,
      ofCase(async (place) =>
        download(await exchange.archiveOf(place), `case-${place.id}-archive.zip`, 'application/zip'),
      ),
    ),
    upload(
      '/api/programmes/:id/archives/preview',
      signedIn,
      archive,
      intoProgramme(async (bytes, _, access) => {
        const preview = await exchange.preview(bytes, (place) => {
          const role = access.roleIn(place)
          return role !== undefined && rolesThatExchange.includes(role)
        })
        return 'code' in preview ? refuseArchive(preview) : ok(preview)
      }),
    ),
    upload('/api/programmes/:id/archives', signedIn, archive, takeIn('original')),
    upload('/api/programmes/:id/archives/copy', signedIn, archive, takeIn('copy')),
  ]
}

const archive = { types: ['application/zip'], mostBytes: archiveLimits.bytes }

const refuseArchive = (fault: ArchiveFault): Reply => refuse('bad-archive', sentenceOfArchiveFault(fault))

/** A file to be saved; its name is made of ids alone. */
const download = (bytes: Uint8Array, name: string, type: string): Reply => ({
  status: 200,
  body: bytes,
  headers: { 'Content-Type': type, 'Content-Disposition': `attachment; filename="${name}"` },
})

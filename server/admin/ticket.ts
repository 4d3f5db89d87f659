import { access } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { documentName } from '../../lib/board/documents.ts'
import { CaseId } from '../../lib/board/identity.ts'
import { Role } from '../../lib/board/roles.ts'
import { CannotStart } from '../cannot-start.ts'
import { dataFiles } from '../data-folder.ts'
import { openStore } from '../keeper.ts'
import { newId } from '../people/identifiers.ts'
import { createSigner, loadKey } from '../people/signer.ts'
import { issueTicket, ticketMinutes } from '../people/tickets.ts'
import { localUrl, readSettings } from '../settings.ts'
import { StoreOutage } from '../store/store.ts'

const usage = `Usage: npm run -s ticket -- --case <id> --role <${Role.options.join('|')}> [--name <name>] [--json]`

interface Wanted {
  readonly caseId: string
  readonly role: Role
  readonly name: string
  readonly json: boolean
}

/** Where and with what a y-websocket client connects. */
interface SyncAddress {
  readonly serverUrl: string
  readonly rooms: { readonly record: string; readonly floor: string }
  readonly params: { readonly ticket: string }
  readonly participant: string
}

try {
  const wanted = readArguments()
  const address = await issue(wanted)
  console.log(wanted.json ? JSON.stringify(address, null, 2) : addressAsUrl(address))
} catch (error) {
  if (!(error instanceof CannotStart || error instanceof StoreOutage)) throw error
  console.error(error.message)
  process.exit(1)
}

function readArguments(): Wanted {
  const { values } = parse()
  const caseId = CaseId.safeParse(values.case)
  const role = Role.safeParse(values.role)
  if (!caseId.success || !role.success) throw new CannotStart(usage)
  return { caseId: caseId.data, role: role.data, name: values.name, json: values.json }
}

function parse() {
  try {
    return parseArgs({
      options: {
        case: { type: 'string' },
        role: { type: 'string' },
        name: { type: 'string', default: 'Program' },
        json: { type: 'boolean', default: false },
      },
    })
  } catch (cause) {
    throw new CannotStart(usage, { cause })
  }
}

async function issue({ caseId, role, name }: Wanted): Promise<SyncAddress> {
  const settings = readSettings(process.env)
  const files = dataFiles(settings.dataDir)
  await access(settings.databaseUrl === undefined ? files.store : files.key).catch((cause: unknown) => {
    throw new CannotStart(`There is no board in ${settings.dataDir}; set DATA_DIR to the server's.`, { cause })
  })
  const store = await openStore(settings)
  try {
    if ((await store.findCase(caseId)) === null)
      throw new CannotStart(`There is no case ${caseId} in ${settings.dataDir}.`)
    const now = new Date()
    const participant = newId()
    await store.createParticipant({ id: participant, name, affiliation: 'ticket', createdAt: now.toISOString() })
    const ticket = issueTicket(createSigner(await loadKey(files.key)), { participant, caseId, role }, now)
    const base = settings.origin ?? localUrl(settings.host, settings.port)
    return {
      serverUrl: `${base.replace(/^http/, 'ws')}/sync`,
      rooms: { record: documentName('record', caseId), floor: documentName('floor', caseId) },
      params: { ticket },
      participant,
    }
  } finally {
    await store.close()
  }
}

function addressAsUrl({ serverUrl, rooms, params }: SyncAddress): string {
  console.error(`Valid for ${ticketMinutes} minutes. The questions are in room ${rooms.floor}.`)
  return `${serverUrl}/${rooms.record}?ticket=${params.ticket}`
}

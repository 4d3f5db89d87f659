import { askApi } from '@/app/api-client.ts'
import { pageLanguage } from '@/app/messages/page-language.ts'
import { everywhere, messagesNow } from '@/app/messages/parts/everywhere.ts'
import { refusalsPart } from '@/app/messages/parts/refusals.ts'
import type { Messages } from '@/app/messages/use-messages.ts'
import type { CaseId } from '@/lib/board/identity.ts'
import type { Refusal } from '@/lib/board/refusals.ts'
import { closeCode } from '@/lib/board/wire.ts'
import { CaseDetail, Me as MeAnswer, PeopleOfCase } from '@/lib/interchange/api.ts'
import { BoardConnection } from './connection/board-connection.ts'
import { syncServer } from './connection/early-call.ts'
import { browserText } from './connection/kept-text.ts'
import { storageWorks } from './connection/storage-works.ts'
import { openingPaths } from './opening-paths.ts'

/** A case with its documents, for whoever is signed in. */
export interface OpenedBoard {
  readonly connection: BoardConnection
  readonly detail: CaseDetail
  readonly people: PeopleOfCase['people']
}

interface EarlyOpening {
  readonly caseId: CaseId
  readonly leaving: AbortController
  readonly opened: Promise<OpenedBoard>
}

/** Nobody draws a board any more that was begun so long ago. */
const unwantedMs = 30_000
let early: EarlyOpening | undefined

/** Begins before the page has been drawn, for which a slow phone takes long: whoever opens this case next takes it over. */
export function openEarly(caseId: CaseId): void {
  const leaving = new AbortController()
  // A page that is drawn has its sentences; this may be before.
  const opened = everywhere.load(pageLanguage()).then(() => open(caseId, leaving.signal))
  const begun: EarlyOpening = { caseId, leaving, opened }
  early = begun
  const close = () => {
    if (early !== begun) return
    early = undefined
    leaving.abort()
    opened.then(
      ({ connection }) => connection.destroy(),
      () => undefined,
    )
  }
  opened.catch(() => undefined) // whoever takes it hears of the failure
  setTimeout(close, unwantedMs)
}

/** @throws ApiFault */
export function openBoard(caseId: CaseId, signal: AbortSignal): Promise<OpenedBoard> {
  if (early?.caseId !== caseId) return open(caseId, signal)
  const { leaving, opened } = early
  early = undefined
  signal.addEventListener('abort', () => leaving.abort())
  return opened
}

async function open(caseId: CaseId, signal: AbortSignal): Promise<OpenedBoard> {
  const [myself, detailed, listed] = openingPaths(encodeURIComponent(caseId))
  const [me, detail, { people }, keepsCopies] = await Promise.all([
    askApi(myself, MeAnswer, { signal }),
    askApi(detailed, CaseDetail, { signal }),
    askApi(listed, PeopleOfCase, { signal }),
    storageWorks(),
  ])
  signal.throwIfAborted()
  const person = me.participant
  if (person === null) throw new TypeError('a case answered to nobody')
  const connection = new BoardConnection({
    caseId,
    me: { participant: person.id, name: person.name, affiliation: person.affiliation, role: detail.case.role },
    serverUrl: syncServer(),
    kept: browserText,
    keepsCopies,
    now: () => new Date(),
    newId: () => crypto.randomUUID(),
    explain,
    explainClosing: (code) => closingSentence(code, messagesNow()),
    reopen: () => location.reload(),
  })
  // Drawn only then, once and with what this browser has; the server answers meanwhile.
  signal.addEventListener('abort', () => connection.destroy())
  await connection.begun
  signal.throwIfAborted()
  return { connection, detail, people }
}

async function explain(refused: Refusal): Promise<string> {
  if (refused.code === 'wrong-time') await readClockAnew()
  try {
    const { refusals } = await refusalsPart.load(pageLanguage())
    return refusals.ofEdit(refused)
  } catch {
    // The page lost its link before it had the sentences: what happened is told all the same.
    return messagesNow().shell.noLink
  }
}

/** The device's clock was set, or the server's: the draft is written again by the time that the server has now. */
const readClockAnew = (): Promise<unknown> =>
  import('@/app/read-server-clock.ts').then(({ readServerClock }) => readServerClock()).catch(() => undefined)

export const closingSentence = (code: number | undefined, { board }: Messages): string =>
  code === closeCode.revoked ? board.revoked : board.notAllowed

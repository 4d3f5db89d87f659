import { ApiFault, askApi, sentenceOfFault } from '@/app/api-client.ts'
import { messagesNow } from '@/app/messages/parts/everywhere.ts'
import { ProgrammeDetail } from '@/lib/interchange/api.ts'
import { followPath, followTickMs } from '@/lib/interchange/follow.ts'

/** What keeps a page from following: the link itself, or a server that does not reach its data. */
type WhyLost = 'link' | 'store'

/** How a page stands to the programme that it follows. `since` in ISO 8601. */
export type FollowLink =
  | { readonly state: 'live' }
  | { readonly state: 'lost'; readonly since: string; readonly why: WhyLost }

export type Following =
  | { readonly state: 'asking' }
  | { readonly state: 'failed'; readonly reason: string; readonly code: ApiFault['code'] | undefined }
  | { readonly state: 'following'; readonly detail: ProgrammeDetail; readonly link: FollowLink }

/** After this time without a word the link is taken for lost: two signs of life may be late or missing. */
const silenceMs = 3 * followTickMs
const firstDelayMs = 300
const longestDelayMs = 3000

/** Answers after which asking again is of no use. */
const final: readonly unknown[] = ['not-signed-in', 'not-permitted', 'not-found', 'unreadable']

/**
 * Follows a programme: asks for it once (a plain answer says why when it may not be read), then hears each change. Comes
 * back by itself after any loss; what was known stays in view meanwhile, marked with since when it may be old.
 */
export class ProgrammeFollower {
  private readonly id: string
  private readonly tell: (following: Following) => void
  private following: Following = { state: 'asking' }
  private socket: WebSocket | undefined
  private silence: ReturnType<typeof setTimeout> | undefined
  private retry: ReturnType<typeof setTimeout> | undefined
  private leaving = new AbortController()
  private losses = 0

  constructor(id: string, tell: (following: Following) => void) {
    this.id = id
    this.tell = tell
  }

  start(): void {
    addEventListener('online', this.comeBack)
    addEventListener('offline', this.loseLink)
    this.connect()
  }

  stop(): void {
    removeEventListener('online', this.comeBack)
    removeEventListener('offline', this.loseLink)
    this.letGo()
  }

  private connect(): void {
    this.letGo()
    const { signal } = this.leaving
    askApi(`/api/programmes/${encodeURIComponent(this.id)}`, ProgrammeDetail, { signal }).then(
      (detail) => {
        this.hold(detail)
        this.listen()
      },
      (error: unknown) => {
        if (!signal.aborted) this.fail(error)
      },
    )
  }

  private listen(): void {
    const scheme = location.protocol === 'https:' ? 'wss' : 'ws'
    const socket = new WebSocket(`${scheme}://${location.host}${followPath}${encodeURIComponent(this.id)}`)
    this.socket = socket
    socket.onmessage = ({ data }) => this.hear(String(data))
    socket.onclose = this.loseLink
    this.awaitWord()
  }

  private hear(text: string): void {
    this.losses = 0
    this.awaitWord()
    if (text === '') return
    const told = ProgrammeDetail.safeParse(JSON.parse(text))
    if (!told.success) return this.fail(new ApiFault('unreadable', messagesNow().shell.unreadableAnswer))
    this.say({ state: 'following', detail: told.data, link: { state: 'live' } })
  }

  /** What a plain answer said: not yet live, because only the socket tells what comes after it. */
  private hold(detail: ProgrammeDetail): void {
    const link = this.following.state === 'following' ? this.following.link : { state: 'live' as const }
    this.say({ state: 'following', detail, link })
  }

  private fail(error: unknown): void {
    const code = error instanceof ApiFault ? error.code : undefined
    if (final.includes(code)) {
      this.letGo()
      this.say({ state: 'failed', reason: sentenceOfFault(error), code })
      return
    }
    if (this.following.state !== 'following') this.say({ state: 'failed', reason: sentenceOfFault(error), code })
    this.lose(code === 'unavailable' ? 'store' : 'link')
  }

  private readonly loseLink = (): void => this.lose('link')

  private lose(why: WhyLost): void {
    this.letGo()
    if (this.following.state === 'following') {
      const { link } = this.following
      const since = link.state === 'lost' ? link.since : new Date().toISOString()
      if (link.state === 'live' || link.why !== why)
        this.say({ ...this.following, link: { state: 'lost', since, why } })
    }
    const delayMs = Math.min(firstDelayMs * 2 ** this.losses++, longestDelayMs)
    // A room full of pages that lost the same server does not come back in one moment.
    this.retry = setTimeout(() => this.connect(), delayMs * (0.5 + Math.random() / 2))
  }

  private readonly comeBack = (): void => this.connect()

  private awaitWord(): void {
    clearTimeout(this.silence)
    this.silence = setTimeout(this.loseLink, silenceMs)
  }

  private letGo(): void {
    this.leaving.abort()
    this.leaving = new AbortController()
    clearTimeout(this.silence)
    clearTimeout(this.retry)
    if (this.socket === undefined) return
    this.socket.onmessage = null
    this.socket.onclose = null
    this.socket.close()
    this.socket = undefined
  }

  private say(following: Following): void {
    this.following = following
    this.tell(following)
  }
}

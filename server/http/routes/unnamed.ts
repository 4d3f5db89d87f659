import { kindOf } from '../../../lib/board/records.ts'
import { sentenceOf } from '../../../lib/board/refusal-sentences.ts'
import type { Role } from '../../../lib/board/roles.ts'
import { type UnnamedAuthors, UnnamedQuestion, UnnamedReply } from '../../../lib/interchange/unnamed.ts'
import type { Caller } from '../../people/people.ts'
import type { StoredCase } from '../../store/store.ts'
import type { Written } from '../../unnamed/unnamed.ts'
import type { ApiParts } from '../api.ts'
import { created, ok, type Reply, refuse } from '../reply.ts'
import { type Ask, emptyBody, get, post, type Route, signedIn } from '../routes.ts'

const mayAsk = (role: Role): boolean => kindOf('questions').create.includes(role)

/** Asking without a name, and what the asker may do to such a question afterwards. */
export function unnamedRoutes({ store, unnamed }: ApiParts): readonly Route[] {
  const inCase =
    <Body>(handle: (asked: Asked<Body>) => Promise<Reply>) =>
    async (ask: Ask<Body, Caller>): Promise<Reply> => {
      const place = await store.findCase(ask.params.id ?? '')
      const role = place === null ? undefined : ask.caller.access.roleIn(place)
      if (place === null || role === undefined || !mayAsk(role)) return refuse('not-permitted')
      const who = { participant: ask.caller.participant.id, role }
      return handle({ place, who, author: ask.params.author ?? '', body: ask.body })
    }
  return [
    get(
      '/api/cases/:id/unnamed',
      signedIn,
      inCase(async ({ place, who }) => ok({ authors: [...(await unnamed.list(place, who))] } satisfies UnnamedAuthors)),
    ),
    post(
      '/api/cases/:id/unnamed',
      signedIn,
      UnnamedQuestion,
      inCase<UnnamedQuestion>(async ({ place, who, body }) => {
        const asked = await unnamed.ask(place, who, body)
        return 'author' in asked ? created({ author: asked.author }) : refuse('edit-refused', sentenceOf(asked))
      }),
    ),
    post(
      '/api/cases/:id/unnamed/:author',
      signedIn,
      UnnamedQuestion,
      inCase<UnnamedQuestion>(async ({ place, who, author, body }) =>
        replyTo(await unnamed.reword(place, who, author, body)),
      ),
    ),
    post(
      '/api/cases/:id/unnamed/:author/reply',
      signedIn,
      UnnamedReply,
      inCase<UnnamedReply>(async ({ place, who, author, body }) =>
        replyTo(await unnamed.reply(place, who, author, body.text)),
      ),
    ),
    post(
      '/api/cases/:id/unnamed/:author/withdraw',
      signedIn,
      emptyBody,
      inCase(async ({ place, who, author }) => replyTo(await unnamed.withdraw(place, who, author))),
    ),
  ]
}

interface Asked<Body> {
  readonly place: StoredCase
  readonly who: { readonly participant: string; readonly role: Role }
  readonly author: string
  readonly body: Body
}

function replyTo(written: Written): Reply {
  if (written === 'written') return ok({})
  return written === 'not-yours' ? refuse('not-found') : refuse('edit-refused', sentenceOf(written))
}

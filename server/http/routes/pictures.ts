import type { IncomingMessage } from 'node:http'
import type { Picture } from '../../../lib/board/records/picture.ts'
import { kindOf } from '../../../lib/board/records.ts'
import { sentenceOf } from '../../../lib/board/refusal-sentences.ts'
import type { Role } from '../../../lib/board/roles.ts'
import type { ApiErrorCode } from '../../../lib/interchange/api.ts'
import {
  type AddedPicture,
  NewPicture,
  pictureHeaders,
  sentPictureBytes,
} from '../../../lib/interchange/pictures/new-picture.ts'
import type { NotTaken } from '../../pictures/pictures.ts'
import type { StoredPicture } from '../../store/store.ts'
import type { ApiParts } from '../api.ts'
import { createPace } from '../pace.ts'
import { created, type Reply, refuse } from '../reply.ts'
import { get, type Route, signedIn, upload } from '../routes.ts'

/** Photographs that one person may send: nobody takes and looks over more, a script does. */
const picturesPace = { perSecond: 0.5, burst: 20 } as const

const accepted = {
  types: ['image/png', 'image/jpeg'],
  mostBytes: sentPictureBytes,
  headers: [
    { name: pictureHeaders.caption, description: 'Caption, percent-encoded UTF-8' },
    { name: pictureHeaders.step, description: 'Id of the operative step that it belongs to' },
  ],
} as const

/** Photographs of a case: sent by who works on it, seen by whoever may open it. */
export function pictureRoutes({ store, pictures, now }: ApiParts): readonly Route[] {
  const isTooFast = createPace(picturesPace, now)
  return [
    upload('/api/cases/:id/pictures', signedIn, accepted, async ({ request, caller, params, body }) => {
      const place = await store.findCase(params.id ?? '')
      const role = place === null ? undefined : caller.access.roleIn(place)
      if (place === null || role === undefined || !mayAdd(role)) return refuse('not-permitted')
      if (isTooFast(caller.participant.id)) return refuse('too-many-requests')
      const words = wordsOf(request)
      if (words === undefined)
        return refuse('bad-request', 'The caption or the step is not in the form that is needed.')
      const file = await body.read()
      if (!file.ok) return refuse('picture-too-large')
      // A link as slow as its sender likes: the right may have ended since the first byte.
      const roleNow = await caller.roleIn(place.id)
      if (roleNow === undefined || !mayAdd(roleNow)) return refuse('not-permitted')
      const added = await pictures.add(place, { participant: caller.participant.id, role: roleNow }, file.bytes, words)
      return 'id' in added ? created({ picture: added } satisfies AddedPicture) : refuseAdded(added)
    }),
    get('/api/cases/:id/pictures/:picture', signedIn, async ({ request, caller, params }) => {
      const place = await store.findCase(params.id ?? '')
      if (place === null || caller.access.roleIn(place) === undefined) return refuse('not-permitted')
      const found = await pictures.find(place.id, params.picture ?? '')
      if (found === null) return refuse('not-found')
      const tag = `"${params.picture}"`
      return request.headers['if-none-match'] === tag ? stillThere : pictureReply(found, askedForEachTime(tag))
    }),
  ]
}

const mayAdd = (role: Role): boolean => kindOf('pictures').create.includes(role)

function wordsOf({ headers }: IncomingMessage): NewPicture | undefined {
  const { [pictureHeaders.caption]: caption = '', [pictureHeaders.step]: step } = headers
  try {
    return NewPicture.safeParse({
      caption: decodeURIComponent(String(caption)),
      ...(step === undefined ? {} : { step }),
    }).data
  } catch {
    return undefined
  }
}

const codes: Readonly<Record<Extract<NotTaken, { fault: unknown }>['fault'], ApiErrorCode>> = {
  'unknown-type': 'picture-unknown-type',
  'unsupported-sort': 'picture-unsupported',
  'cut-short': 'picture-broken',
  damaged: 'picture-broken',
  'trailing-data': 'picture-broken',
  'too-many-pixels': 'picture-too-large',
  'too-many-bytes': 'picture-too-large',
}

function refuseAdded(added: NotTaken): Reply {
  if ('fault' in added) return refuse(codes[added.fault])
  return added.refused.code === 'too-many'
    ? refuse('too-many-pictures')
    : refuse('edit-refused', sentenceOf(added.refused))
}

/** It never changes under its id, but may be withdrawn: a browser shows no copy before it has asked whether it is still there. */
const askedForEachTime = (tag: string) => ({ 'Cache-Control': 'private, no-cache', ETag: tag })
const stillThere: Reply = { status: 304, body: new Uint8Array(), headers: { 'Cache-Control': 'private, no-cache' } }

/** The picture as what it is and as nothing else: no browser takes it for a page, whatever its bytes look like. */
export const pictureReply = (
  { mediaType, bytes }: StoredPicture,
  caching: Readonly<Record<string, string>>,
): Reply => ({
  status: 200,
  body: bytes,
  headers: {
    'Content-Type': mediaType satisfies Picture['mediaType'],
    'Content-Disposition': 'inline',
    'Content-Length': String(bytes.length),
    'X-Content-Type-Options': 'nosniff',
    'Content-Security-Policy': "default-src 'none'; sandbox; frame-ancestors 'none'",
    ...caching,
  },
})

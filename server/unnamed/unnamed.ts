import type * as Y from 'yjs'
import { documentName } from '../../lib/board/documents.ts'
import { raiseQuestion, reply, rewordQuestion, withdrawQuestion } from '../../lib/board/edits/floor.ts'
import type { Pen } from '../../lib/board/edits/writing.ts'
import { type ParticipantId, unnamedPrefix } from '../../lib/board/identity.ts'
import type { Sender } from '../../lib/board/judge.ts'
import type { Question } from '../../lib/board/records/question.ts'
import { type Refusal, refusal } from '../../lib/board/refusals.ts'
import { summariseDelays } from '../../lib/board/video-delay.ts'
import type { UnnamedAuthor, UnnamedQuestion } from '../../lib/interchange/unnamed.ts'
import { newId } from '../people/identifiers.ts'
import type { Hub } from '../room/hub.ts'
import type { Room } from '../room/room.ts'
import type { Store, StoredCase } from '../store/store.ts'

/**
 * Questions without a name. A document is sent whole to everybody who may see it, and each of its parts carries the mark of
 * the page that wrote it: so the server writes these itself, in a copy of its own, under an author that stands for the
 * asker in this one question. Whose it is lies in the store, and is told to moderators alone.
 */
export interface Unnamed {
  ask(place: StoredCase, who: Sender, words: UnnamedQuestion): Promise<Asked>
  reword(place: StoredCase, who: Sender, author: ParticipantId, words: UnnamedQuestion): Promise<Written>
  reply(place: StoredCase, who: Sender, author: ParticipantId, text: string): Promise<Written>
  withdraw(place: StoredCase, who: Sender, author: ParticipantId): Promise<Written>
  /** the caller's own, and for moderators everybody's */
  list(place: StoredCase, who: Sender): Promise<readonly UnnamedAuthor[]>
}

/** What one person may ask without a name in one case, refused ones among them: each leaves a row in the store. */
export const mostUnnamedEach = 100

export type Written = 'written' | 'not-yours' | Refusal
export type Asked = { readonly author: ParticipantId } | Refusal

export interface UnnamedParts {
  readonly store: Store
  readonly hub: Hub
  readonly now: () => Date
}

export function createUnnamed({ store, hub, now }: UnnamedParts): Unnamed {
  const floorOf = (place: StoredCase) => hub.visit(documentName('floor', place.id))
  const penOf = (participant: ParticipantId): Pen => ({ participant, now, newId })

  const write = (room: Room, who: Sender, author: ParticipantId, edit: (doc: Y.Doc, pen: Pen) => void) =>
    room.writeUnnamed(
      (doc) => edit(doc, penOf(author)),
      { participant: author, role: who.role },
      who.participant,
      now().getTime(),
    )

  /** Writes about the question of this author, once it is sure that the caller asked it. */
  const about = async (
    place: StoredCase,
    who: Sender,
    author: ParticipantId,
    edit: (doc: Y.Doc, pen: Pen, question: Question) => void,
  ): Promise<Written> => {
    const owner = (await store.listUnnamed(place.id)).find((one) => one.author === author)
    const room = await floorOf(place)
    const question = [...room.tables.values('questions')].find((one) => one.author === author)
    if (owner?.participant !== who.participant || question === undefined) return 'not-yours'
    return (await write(room, who, author, (doc, pen) => edit(doc, pen, question))) ?? 'written'
  }

  return {
    ask: async (place, who, words) => {
      const asked = (await store.listUnnamed(place.id)).filter(({ participant }) => participant === who.participant)
      if (asked.length >= mostUnnamedEach)
        return refusal('too-many', 'questions', { kind: 'questions', most: mostUnnamedEach })
      const author = `${unnamedPrefix}${newId()}`
      const room = await floorOf(place)
      // Whose it is comes first: a question of nobody could be neither withdrawn nor asked about.
      const pictureAt = pictureOf(room, who.participant, now())
      await store.addUnnamed({ caseId: place.id, author, participant: who.participant, pictureAt })
      const refused = await write(room, who, author, (doc, pen) => void raiseQuestion(doc, pen, questionOf(words)))
      return refused ?? { author }
    },
    reword: (place, who, author, words) =>
      about(place, who, author, (doc, _, { id }) => rewordQuestion(doc, id, questionOf(words))),
    reply: (place, who, author, text) =>
      about(place, who, author, (doc, pen, { id }) => void reply(doc, pen, id, text)),
    withdraw: (place, who, author) => about(place, who, author, (doc, _, { id }) => withdrawQuestion(doc, id)),
    list: async (place, who) => {
      const isModerator = who.role === 'moderator'
      const found = (await store.listUnnamed(place.id)).filter(
        ({ participant }) => isModerator || participant === who.participant,
      )
      return Promise.all(
        found.map(async ({ author, participant, pictureAt }) => ({
          author,
          isOwn: participant === who.participant,
          person: isModerator ? await personOf(store, participant) : null,
          pictureAt: isModerator ? pictureAt : null,
        })),
      )
    },
  }
}

const questionOf = ({ text, anchor }: UnnamedQuestion) => ({ text, ...(anchor === undefined ? {} : { anchor }) })

/** Beside the question it would tell the asker by their video delay, which stands in the same document under their name. */
function pictureOf(room: Room, participant: ParticipantId, at: Date): string | null {
  const measured = room.tables.get('videoDelays', participant)
  if (measured === undefined) return null
  return new Date(at.getTime() - Math.round(summariseDelays(measured.delaysMs).medianMs)).toISOString()
}

async function personOf(store: Store, participant: ParticipantId): Promise<UnnamedAuthor['person']> {
  const found = await store.findParticipant(participant)
  return found === null ? null : { id: found.id, name: found.name, affiliation: found.affiliation }
}

import type { ParticipantId } from '../../lib/board/identity.ts'
import { rolesWithPresence } from '../../lib/board/roles.ts'
import type { Roster } from '../../lib/board/wire.ts'
import type { Attendance, Neighbours } from '../nodes/neighbours.ts'
import type { Room } from './room.ts'

/** Who is in each room, here and at the other processes: told to every page of it when it has changed. */
export class Rosters {
  private readonly neighbours: Neighbours
  /** what was told last, as text, to the pages here and to the other processes */
  private readonly told = new WeakMap<Room, string>()
  private readonly attended = new WeakMap<Room, string>()
  private readonly others = new WeakMap<Room, readonly Attendance[]>()

  constructor(neighbours: Neighbours) {
    this.neighbours = neighbours
  }

  /** Whom the other processes have inside is read anew the next time. */
  forgetOthers(room: Room): void {
    this.others.delete(room)
  }

  /** All is told and read anew. */
  forget(room: Room): void {
    this.attended.delete(room)
    this.others.delete(room)
  }

  async send(room: Room): Promise<void> {
    const here = attendanceOf(room)
    const text = JSON.stringify(here)
    if (this.neighbours.possible && this.attended.get(room) !== text) {
      await this.neighbours.attend(room.name, here)
      this.attended.set(room, text)
    }
    this.tell(room, merged([here, ...(await this.othersOf(room))]))
  }

  private async othersOf(room: Room): Promise<readonly Attendance[]> {
    if (!this.neighbours.possible) return []
    const known = this.others.get(room)
    if (known !== undefined) return known
    const read = await this.neighbours.attendance(room.name)
    this.others.set(room, read)
    return read
  }

  private tell(room: Room, roster: Roster): void {
    const text = JSON.stringify(roster)
    const changed = this.told.get(room) !== text
    this.told.set(room, text)
    for (const session of room.sessions) if (changed || session.needsRoster()) session.sendRoster(roster)
  }
}

/** Everybody with a name once, however many pages they have open. */
function attendanceOf(room: Room): Attendance {
  const people = new Map<ParticipantId, Roster['people'][number]>()
  const observers = new Set<ParticipantId>()
  for (const { person } of room.sessions)
    if (rolesWithPresence.includes(person.role))
      people.set(person.id, { id: person.id, name: person.name, affiliation: person.affiliation, role: person.role })
    else observers.add(person.id)
  return { people: [...people.values()], observers: [...observers].sort() }
}

/** Observers as a number. */
function merged(attendances: readonly Attendance[]): Roster {
  const people = new Map(attendances.flatMap((each) => each.people.map((person) => [person.id, person])))
  const observers = new Set(attendances.flatMap((each) => each.observers))
  return {
    people: [...people.values()].sort((a, b) => (a.id < b.id ? -1 : 1)),
    observers: observers.size,
  }
}

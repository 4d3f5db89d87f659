import { closeSync, existsSync, openSync, readSync } from 'node:fs'

/** A write-ahead log that is broken where it was once whole. */
export interface WalDamage {
  /** number of the first frame that is not what was written; the first of all is 1, and 0 is the head of the log */
  readonly frame: number
  /** commits behind it that can no longer be read */
  readonly commits: number
}

interface Frame {
  readonly head: Buffer
  readonly page: Buffer
}

const headBytes = 32
const frameHeadBytes = 24
const standardPageBytes = 4096

/**
 * Looks for damage that SQLite takes for the end of the log, so that everything behind it would silently be gone. What a
 * process or a computer that died left half written is no damage: it lies behind the last commit. A commit that other frames
 * of the same generation follow was on the disk before they were written (synchronous=FULL).
 * Format: SQLite, "The Write-Ahead Log", https://www.sqlite.org/fileformat2.html#the_write_ahead_log (from memory, unconfirmed).
 * @param file the database; its log stands beside it
 */
export function findWalDamage(file: string): WalDamage | undefined {
  const log = `${file}-wal`
  if (!existsSync(log)) return undefined
  const found = readDamage(log)
  // Somebody may be writing to it: what is not the same a moment later was only half read.
  const again = found === undefined ? undefined : readDamage(log)
  return found?.frame === again?.frame ? again : undefined
}

function readDamage(log: string): WalDamage | undefined {
  const handle = openSync(log, 'r')
  try {
    return damageOf(handle)
  } finally {
    closeSync(handle)
  }
}

function damageOf(handle: number): WalDamage | undefined {
  const head = Buffer.alloc(headBytes)
  if (readSync(handle, head, 0, headBytes, 0) < headBytes) return undefined
  const chain = Chain.from(head)
  let broken = chain.isWhole ? undefined : 0
  let generation = chain.isWhole ? saltsOf(head, 16) : undefined
  let [commits, followed] = [0, 0]
  let number = 0
  for (const frame of framesIn(handle, pageBytesOf(head))) {
    number += 1
    if (broken === undefined && chain.continues(frame, generation)) continue
    broken ??= number
    generation ??= saltsOf(frame.head, 8)
    if (saltsOf(frame.head, 8) !== generation) continue
    followed = commits
    if (frame.head.readUInt32BE(4) !== 0) commits += 1
  }
  return broken !== undefined && followed > 0 ? { frame: broken, commits } : undefined
}

function* framesIn(handle: number, pageBytes: number): Generator<Frame> {
  for (let at = headBytes; ; at += frameHeadBytes + pageBytes) {
    const bytes = Buffer.alloc(frameHeadBytes + pageBytes)
    if (readSync(handle, bytes, 0, bytes.length, at) < bytes.length) return
    yield { head: bytes.subarray(0, frameHeadBytes), page: bytes.subarray(frameHeadBytes) }
  }
}

function pageBytesOf(head: Buffer): number {
  const bytes = head.readUInt32BE(8)
  const isPossible = bytes >= 512 && bytes <= 65_536 && (bytes & (bytes - 1)) === 0
  return isPossible ? bytes : standardPageBytes
}

const saltsOf = (head: Buffer, at: number): string => head.toString('hex', at, at + 8)

/** The running checksum: that of each frame goes on from that of the one before. */
class Chain {
  readonly isWhole: boolean
  readonly #littleEndian: boolean
  #sums: readonly [number, number] = [0, 0]

  static from(head: Buffer): Chain {
    return new Chain(head)
  }

  private constructor(head: Buffer) {
    const magic = head.readUInt32BE(0)
    this.#littleEndian = magic === 0x377f0682
    this.#sums = this.#over(head.subarray(0, 24), this.#sums)
    const known = this.#littleEndian || magic === 0x377f0683
    this.isWhole = known && this.#sums[0] === head.readUInt32BE(24) && this.#sums[1] === head.readUInt32BE(28)
  }

  continues({ head, page }: Frame, generation: string | undefined): boolean {
    if (saltsOf(head, 8) !== generation) return false
    const sums = this.#over(page, this.#over(head.subarray(0, 8), this.#sums))
    if (sums[0] !== head.readUInt32BE(16) || sums[1] !== head.readUInt32BE(20)) return false
    this.#sums = sums
    return true
  }

  #over(bytes: Buffer, [first, second]: readonly [number, number]): readonly [number, number] {
    let [a, b] = [first, second]
    for (let at = 0; at < bytes.length; at += 8) {
      a = (a + this.#word(bytes, at) + b) >>> 0
      b = (b + this.#word(bytes, at + 4) + a) >>> 0
    }
    return [a, b]
  }

  #word(bytes: Buffer, at: number): number {
    return this.#littleEndian ? bytes.readUInt32LE(at) : bytes.readUInt32BE(at)
  }
}

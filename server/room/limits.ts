/** Bounds of one connection and one room. Each has a test that crosses it (rules R4 to R8, DEVELOPERS.md). */
export const limits = {
  /** One frame: a day of offline work is some hundred kilobytes. Larger ones close the socket (1009). */
  frameBytes: 2 * 1024 * 1024,
  /** Content frames a second that a socket may send for long: a fast typist sends fifteen. */
  framesPerSecond: 60,
  /** Content frames that may come at once after a pause (a paste, a reconnection). */
  frameBurst: 300,
  /** Presence frames a second: a moving pointer sends ten. */
  presencePerSecond: 30,
  presenceBurst: 60,
  /** Refusals in a row's minute after which the socket is closed: a page is renewed after one. */
  refusalsPerMinute: 60,
  /** What may wait unsent on a socket before it is brought up to date by one difference instead. */
  backlogBytes: 1024 * 1024,
  /** Where the backlog has to fall to before that difference is sent. */
  drainedBytes: 64 * 1024,
  /** A reader that does not drain within this time is disconnected. */
  laggingMs: 60_000,
  /** Shorter than the 30 seconds of silence after which y-websocket takes a link for lost. */
  heartbeatMs: 20_000,
  /** Presence is passed on in one frame a room and tick: shorter than an eye notices, longer where many are listening. */
  presenceTickMs: { least: 10, most: 200 },
  /** The tick is so many times what passing it on took: presence never takes more than a fifth of the process. */
  presenceRest: 4,
  rosterTickMs: 1000,
  /** How late an access that runs out by itself is noticed; a revocation closes sockets at once. */
  accessCheckMs: 30_000,
  /** Updates that somebody who comes in gets on top of an older whole state, before it is encoded anew. */
  sinceWhole: 200,
  /** Bytes of them: merging these for whoever comes in between two edits has to stay cheaper than encoding the whole. */
  sinceWholeBytes: 64 * 1024,
  /** Updates after which a snapshot is written, so that opening stays quick. */
  snapshotEvery: 500,
  /** Edits of one document that are stored in one go: bounds how long the first of them waits. */
  editsAtOnce: 256,
  /** Updates of other processes that are read from the log in one go. */
  readAtOnce: 500,
  /** How long after an update of another process it counts as writing too, and how long one gives way to it then. */
  othersWritingMs: 1_000,
  giveWayMs: 15,
  /** How often a process that has neighbours looks into the log for what it was not told. */
  recheckMs: 5_000,
  /** How often a process that could store nothing tries again, and within what time a second failure waits that long at once. */
  storeRetryMs: 1_000,
  storeCalmMs: 10_000,
  /** Storing that takes so long is told to the log, and then not again for a while. */
  slowStoreMs: 1_000,
  slowStoreQuietMs: 60_000,
  /** How long a process that ends waits for what is being stored. */
  drainMs: 10_000,
  /** How long an empty room stays open. */
  idleRoomMs: 30_000,
  /** Connections that one process takes. */
  sockets: 4000,
  /** Of them for one person: two documents a page, on every screen of a hall. Nobody alone takes everybody's places. */
  socketsPerPerson: 100,
  /** How long a socket that was turned away has to say goodbye. */
  goodbyeMs: 2_000,
} as const

/**
 * What one person of the panel may write on the floor of a case (R9): `burst` at once after a pause and `perMinute` for
 * long, over all their pages. A fast typist needs ten seconds for a short question; a script needs none. One edit may bring
 * `atOnce`, what somebody wrote during an outage, on credit: who comes back with more than the burst waits longer afterwards.
 */
export const paceLimits = {
  questions: { burst: 10, perMinute: 6, atOnce: 40 },
  replies: { burst: 15, perMinute: 10, atOnce: 60 },
  backings: { burst: 60, perMinute: 60, atOnce: 240 },
  videoDelays: { burst: 20, perMinute: 20, atOnce: 20 },
} as const
export type Paced = keyof typeof paceLimits

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
  /** Presence is passed on in one frame a room and tick. */
  presenceTickMs: 50,
  rosterTickMs: 1000,
  /** How late an access that runs out by itself is noticed; a revocation closes sockets at once. */
  accessCheckMs: 30_000,
  /** Updates after which a snapshot is written, so that opening stays quick. */
  snapshotEvery: 500,
  /** How long an empty room stays open. */
  idleRoomMs: 30_000,
  /** Connections that one process takes. */
  sockets: 4000,
} as const

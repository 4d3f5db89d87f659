/**
 * The tables that hold a board, alike in both keepers, in an order in which each row finds what it refers to. Whatever is
 * moved, compared or checked as a whole goes by this list; a test holds it against both schemas.
 */
export interface Table {
  readonly name: string
  readonly columns: readonly string[]
  /** Its first so many columns are the primary key. */
  readonly keyLength: number
  /** The order in which rows came in means something (which grant is the newest). */
  readonly keepsArrival?: true
  /** Rows of up to a megabyte: only so many are held in memory at a time. */
  readonly rowsAtOnce?: number
  /** An empty board has rows in it, which those of the board that is moved replace. */
  readonly startsFilled?: true
}

const table = (
  name: string,
  keyLength: number,
  columns: string,
  more: Pick<Table, 'keepsArrival' | 'startsFilled' | 'rowsAtOnce'> = {},
): Table => ({
  name,
  keyLength,
  columns: columns.split(' '),
  ...more,
})

export const tables: readonly Table[] = [
  table('updates', 2, 'document seq bytes author role at'),
  table('marks', 3, 'document seq place kind record state'),
  table('snapshots', 1, 'document seq bytes'),
  table('checkpoints', 2, 'document seq bytes'),
  table('client_owners', 2, 'document client participant role'),
  table('programmes', 1, 'id label created_at last_on is_on on_since'),
  table(
    'cases',
    1,
    'id programme label rank created_at phase ear device_class coupling_site open_questions contingencies_met next_visit_due updated_at planned_at break_before',
  ),
  table('ballots', 3, 'case_id vote participant option confidence at'),
  table('closed_votes', 2, 'case_id vote'),
  table('withdrawals', 1, 'id case_id document records content reason participant role at finished'),
  table('unnamed_authors', 2, 'case_id author participant picture_at'),
  table('pictures', 2, 'case_id id withdrawal media_type bytes', { rowsAtOnce: 8 }),
  table('erasures', 1, 'id case_id programme participant at counts'),
  table('outcome_revision', 1, 'last', { startsFilled: true }),
  table(
    'case_outcomes',
    1,
    'case_id revision patient ear device_class coupling_site pathology malleus incus stapes operated_on tags forecast',
  ),
  table('visit_outcomes', 3, 'case_id ear visit place occasion year held_on air bone sound_field aided words_percent'),
  table('participants', 1, 'id name affiliation created_at'),
  table(
    'invitations',
    1,
    'id token_hash label role scope_kind scope_id created_at expires_at access_until revoked_at uses',
  ),
  table('grants', 2, 'participant invitation scope_kind scope_id role granted_at expires_at', { keepsArrival: true }),
  table('sessions', 1, 'hash participant created_at last_seen'),
]

export type Value = string | number | Uint8Array | null
/** In the order of the table's columns. */
export type Row = readonly Value[]

/** All rows of a board, read as they were at one moment. */
export interface TableReader {
  /** @param order by the primary key, byte by byte; or as they came in, where the table keeps that */
  rows(table: Table, order: 'key' | 'arrival'): AsyncIterable<Row>
  /** What the database itself finds broken in its files; empty when nothing. */
  damage(): Promise<readonly string[]>
  close(): Promise<void>
}

/** Takes all rows of a board into an empty database, whole or not at all. */
export interface TableWriter {
  /** Takes away the rows that an empty board has in a table. */
  clear(table: Table): Promise<void>
  write(table: Table, rows: readonly Row[]): Promise<void>
  /** All of it stands from now on. */
  finish(): Promise<void>
  close(): Promise<void>
}

/** Rows that are read or written in one go, where a table says nothing else. */
export const usualRowsAtOnce = 500

export const keyOf = ({ columns, keyLength }: Table): readonly string[] => columns.slice(0, keyLength)

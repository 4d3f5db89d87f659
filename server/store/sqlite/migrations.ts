/**
 * The schema, one step a version: the database's `user_version` is the number of steps taken. Steps are never edited
 * once released; a change is a new step at the end.
 */
export const migrations: readonly string[] = [
  `
  CREATE TABLE updates (
    document TEXT NOT NULL,
    seq INTEGER NOT NULL,
    bytes BLOB NOT NULL,
    author TEXT NOT NULL,
    role TEXT NOT NULL,
    at TEXT NOT NULL,
    PRIMARY KEY (document, seq)
  );
  CREATE TABLE snapshots (
    document TEXT PRIMARY KEY,
    seq INTEGER NOT NULL,
    bytes BLOB NOT NULL
  );
  CREATE TABLE client_owners (
    document TEXT NOT NULL,
    client INTEGER NOT NULL,
    participant TEXT NOT NULL,
    role TEXT NOT NULL,
    PRIMARY KEY (document, client)
  ) WITHOUT ROWID;

  CREATE TABLE programmes (
    id TEXT PRIMARY KEY,
    label TEXT NOT NULL,
    created_at TEXT NOT NULL
  );
  CREATE TABLE cases (
    id TEXT PRIMARY KEY,
    programme TEXT NOT NULL REFERENCES programmes (id),
    label TEXT NOT NULL,
    rank TEXT NOT NULL,
    created_at TEXT NOT NULL,
    phase TEXT,
    ear TEXT,
    device_class TEXT,
    coupling_site TEXT,
    open_questions INTEGER NOT NULL DEFAULT 0,
    contingencies_met INTEGER NOT NULL DEFAULT 0,
    next_visit_due TEXT,
    updated_at TEXT NOT NULL
  );

  CREATE TABLE participants (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    affiliation TEXT NOT NULL,
    created_at TEXT NOT NULL
  );
  CREATE TABLE invitations (
    id TEXT PRIMARY KEY,
    token_hash TEXT NOT NULL UNIQUE,
    label TEXT NOT NULL,
    role TEXT NOT NULL,
    scope_kind TEXT NOT NULL CHECK (scope_kind IN ('installation', 'programme', 'case')),
    scope_id TEXT NOT NULL,
    created_at TEXT NOT NULL,
    expires_at TEXT,
    access_until TEXT,
    revoked_at TEXT,
    uses INTEGER NOT NULL DEFAULT 0
  );
  CREATE TABLE grants (
    participant TEXT NOT NULL REFERENCES participants (id),
    invitation TEXT NOT NULL REFERENCES invitations (id) ON DELETE CASCADE,
    scope_kind TEXT NOT NULL,
    scope_id TEXT NOT NULL,
    role TEXT NOT NULL,
    granted_at TEXT NOT NULL,
    expires_at TEXT,
    PRIMARY KEY (participant, invitation)
  );
  CREATE INDEX grants_by_scope ON grants (scope_kind, scope_id);
  CREATE INDEX grants_by_invitation ON grants (invitation);
  CREATE TABLE sessions (
    hash TEXT PRIMARY KEY,
    participant TEXT NOT NULL REFERENCES participants (id),
    created_at TEXT NOT NULL,
    last_seen TEXT NOT NULL
  );
  `,
  `
  CREATE TABLE checkpoints (
    document TEXT NOT NULL,
    seq INTEGER NOT NULL,
    bytes BLOB NOT NULL,
    PRIMARY KEY (document, seq)
  );
  CREATE TABLE marks (
    document TEXT NOT NULL,
    seq INTEGER NOT NULL,
    place INTEGER NOT NULL,
    kind TEXT NOT NULL,
    record TEXT NOT NULL,
    state TEXT NOT NULL,
    PRIMARY KEY (document, seq, place)
  ) WITHOUT ROWID;
  CREATE INDEX updates_by_time ON updates (document, at, seq);
  `,
  `
  ALTER TABLE programmes ADD COLUMN last_on TEXT REFERENCES cases (id) ON DELETE SET NULL;
  ALTER TABLE programmes ADD COLUMN is_on INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE programmes ADD COLUMN on_since TEXT;
  ALTER TABLE cases ADD COLUMN planned_at TEXT;
  ALTER TABLE cases ADD COLUMN break_before TEXT NOT NULL DEFAULT '';
  `,
  `
  CREATE TABLE ballots (
    case_id TEXT NOT NULL,
    vote TEXT NOT NULL,
    participant TEXT NOT NULL,
    option INTEGER NOT NULL,
    confidence INTEGER,
    at TEXT NOT NULL,
    PRIMARY KEY (case_id, vote, participant)
  ) WITHOUT ROWID;
  CREATE TABLE closed_votes (
    case_id TEXT NOT NULL,
    vote TEXT NOT NULL,
    PRIMARY KEY (case_id, vote)
  ) WITHOUT ROWID;
  `,
  `
  CREATE TABLE withdrawals (
    id TEXT PRIMARY KEY,
    case_id TEXT NOT NULL,
    document TEXT NOT NULL,
    records TEXT NOT NULL,
    content TEXT NOT NULL,
    reason TEXT NOT NULL,
    participant TEXT NOT NULL,
    role TEXT NOT NULL,
    at TEXT NOT NULL,
    finished INTEGER NOT NULL DEFAULT 0
  ) WITHOUT ROWID;
  CREATE INDEX withdrawals_by_case ON withdrawals (case_id, at);
  `,
  `
  CREATE TABLE unnamed_authors (
    case_id TEXT NOT NULL,
    author TEXT NOT NULL,
    participant TEXT NOT NULL,
    picture_at TEXT,
    PRIMARY KEY (case_id, author)
  ) WITHOUT ROWID;
  `,
  `
  CREATE TABLE erasures (
    id TEXT PRIMARY KEY,
    case_id TEXT NOT NULL,
    programme TEXT NOT NULL,
    participant TEXT NOT NULL,
    at TEXT NOT NULL,
    counts TEXT NOT NULL
  ) WITHOUT ROWID;
  `,
  `
  CREATE TABLE outcome_revision (last INTEGER NOT NULL);
  INSERT INTO outcome_revision (last) VALUES (0);
  CREATE TABLE case_outcomes (
    case_id TEXT PRIMARY KEY,
    revision INTEGER NOT NULL UNIQUE,
    patient TEXT NOT NULL,
    ear TEXT,
    device_class TEXT,
    coupling_site TEXT,
    pathology TEXT,
    malleus TEXT,
    incus TEXT,
    stapes TEXT,
    operated_on TEXT,
    tags TEXT NOT NULL,
    forecast TEXT
  ) WITHOUT ROWID;
  CREATE TABLE visit_outcomes (
    case_id TEXT NOT NULL,
    ear TEXT NOT NULL,
    visit TEXT NOT NULL,
    place INTEGER NOT NULL,
    occasion TEXT NOT NULL,
    year INTEGER,
    held_on TEXT,
    air TEXT NOT NULL,
    bone TEXT NOT NULL,
    sound_field TEXT NOT NULL,
    aided TEXT NOT NULL,
    words_percent REAL,
    PRIMARY KEY (case_id, ear, visit)
  ) WITHOUT ROWID;
  `,
  `
  CREATE TABLE pictures (
    case_id TEXT NOT NULL,
    id TEXT NOT NULL,
    withdrawal TEXT,
    media_type TEXT NOT NULL,
    bytes BLOB NOT NULL,
    PRIMARY KEY (case_id, id)
  );
  CREATE INDEX pictures_by_withdrawal ON pictures (withdrawal);
  `,
]

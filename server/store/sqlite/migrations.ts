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
]

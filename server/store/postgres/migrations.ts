/** Text that compares byte by byte, as in SQLite: fractional ranks and ISO 8601 instants are ordered by it. */
const exact = 'text COLLATE "C"'

/**
 * The schema in PostgreSQL, one step a version, as in ../sqlite/migrations.ts: tables and columns are the same, so that a
 * board can be moved from one to the other (server/store/tables.ts). Steps are never edited once released.
 */
export const migrations: readonly string[] = [
  `
  CREATE TABLE documents (
    document ${exact} PRIMARY KEY,
    seq integer NOT NULL
  );
  CREATE TABLE updates (
    document ${exact} NOT NULL,
    seq integer NOT NULL,
    bytes bytea NOT NULL,
    author ${exact} NOT NULL,
    role ${exact} NOT NULL,
    at ${exact} NOT NULL,
    PRIMARY KEY (document, seq)
  );
  CREATE INDEX updates_by_time ON updates (document, at, seq);
  CREATE TABLE marks (
    document ${exact} NOT NULL,
    seq integer NOT NULL,
    place integer NOT NULL,
    kind ${exact} NOT NULL,
    record ${exact} NOT NULL,
    state ${exact} NOT NULL,
    PRIMARY KEY (document, seq, place)
  );
  CREATE TABLE snapshots (
    document ${exact} PRIMARY KEY,
    seq integer NOT NULL,
    bytes bytea NOT NULL
  );
  CREATE TABLE checkpoints (
    document ${exact} NOT NULL,
    seq integer NOT NULL,
    bytes bytea NOT NULL,
    PRIMARY KEY (document, seq)
  );
  CREATE TABLE client_owners (
    document ${exact} NOT NULL,
    client bigint NOT NULL,
    participant ${exact} NOT NULL,
    role ${exact} NOT NULL,
    PRIMARY KEY (document, client)
  );

  CREATE TABLE programmes (
    id ${exact} PRIMARY KEY,
    label ${exact} NOT NULL,
    created_at ${exact} NOT NULL,
    last_on ${exact},
    is_on integer NOT NULL DEFAULT 0,
    on_since ${exact}
  );
  CREATE TABLE cases (
    id ${exact} PRIMARY KEY,
    programme ${exact} NOT NULL REFERENCES programmes (id),
    label ${exact} NOT NULL,
    rank ${exact} NOT NULL,
    created_at ${exact} NOT NULL,
    phase ${exact},
    ear ${exact},
    device_class ${exact},
    coupling_site ${exact},
    open_questions integer NOT NULL DEFAULT 0,
    contingencies_met integer NOT NULL DEFAULT 0,
    next_visit_due ${exact},
    updated_at ${exact} NOT NULL,
    planned_at ${exact},
    break_before ${exact} NOT NULL DEFAULT ''
  );
  ALTER TABLE programmes ADD FOREIGN KEY (last_on) REFERENCES cases (id) ON DELETE SET NULL;
  CREATE INDEX cases_by_programme ON cases (programme, rank, id);

  CREATE TABLE ballots (
    case_id ${exact} NOT NULL,
    vote ${exact} NOT NULL,
    participant ${exact} NOT NULL,
    option integer NOT NULL,
    confidence integer,
    at ${exact} NOT NULL,
    PRIMARY KEY (case_id, vote, participant)
  );
  CREATE TABLE closed_votes (
    case_id ${exact} NOT NULL,
    vote ${exact} NOT NULL,
    PRIMARY KEY (case_id, vote)
  );

  CREATE TABLE participants (
    id ${exact} PRIMARY KEY,
    name ${exact} NOT NULL,
    affiliation ${exact} NOT NULL,
    created_at ${exact} NOT NULL
  );
  CREATE TABLE invitations (
    id ${exact} PRIMARY KEY,
    token_hash ${exact} NOT NULL UNIQUE,
    label ${exact} NOT NULL,
    role ${exact} NOT NULL,
    scope_kind ${exact} NOT NULL CHECK (scope_kind IN ('installation', 'programme', 'case')),
    scope_id ${exact} NOT NULL,
    created_at ${exact} NOT NULL,
    expires_at ${exact},
    access_until ${exact},
    revoked_at ${exact},
    uses integer NOT NULL DEFAULT 0
  );
  CREATE TABLE grants (
    participant ${exact} NOT NULL REFERENCES participants (id),
    invitation ${exact} NOT NULL REFERENCES invitations (id) ON DELETE CASCADE,
    scope_kind ${exact} NOT NULL,
    scope_id ${exact} NOT NULL,
    role ${exact} NOT NULL,
    granted_at ${exact} NOT NULL,
    expires_at ${exact},
    place bigint GENERATED ALWAYS AS IDENTITY,
    PRIMARY KEY (participant, invitation)
  );
  CREATE INDEX grants_by_scope ON grants (scope_kind, scope_id);
  CREATE INDEX grants_by_invitation ON grants (invitation);
  CREATE TABLE sessions (
    hash ${exact} PRIMARY KEY,
    participant ${exact} NOT NULL REFERENCES participants (id),
    created_at ${exact} NOT NULL,
    last_seen ${exact} NOT NULL
  );

  -- One statement an append: a process that is cut off in the middle of it holds no lock that others would wait for.
  -- Each request is stored whole or not at all, and is answered with its numbers, or with why it was refused.
  CREATE FUNCTION append_updates(requests jsonb, bodies bytea[]) RETURNS jsonb LANGUAGE plpgsql AS $function$
  DECLARE
    request jsonb;
    entry jsonb;
    claimed bigint;
    owner text;
    last integer;
    seqs integer[];
    body integer := 0;
    first_body integer;
    answers jsonb := '[]';
  BEGIN
    INSERT INTO documents (document, seq)
      SELECT DISTINCT e ->> 'document', 0
      FROM jsonb_array_elements(requests) r, jsonb_array_elements(r -> 'entries') e ORDER BY 1
      ON CONFLICT DO NOTHING;
    -- Always in the same order: two processes never wait for each other.
    PERFORM 1 FROM documents
      WHERE document IN (SELECT e ->> 'document'
                         FROM jsonb_array_elements(requests) r, jsonb_array_elements(r -> 'entries') e)
      ORDER BY document FOR UPDATE;
    FOR request IN SELECT value FROM jsonb_array_elements(requests) LOOP
      first_body := body;
      seqs := '{}';
      BEGIN
        SELECT seq INTO last FROM documents WHERE document = request #>> '{entries,0,document}';
        IF (request ->> 'afterSeq')::integer <> last THEN
          RAISE EXCEPTION USING ERRCODE = 'PB001',
            MESSAGE = format('%s is at %s; the update was judged on %s.',
                             request #>> '{entries,0,document}', last, request ->> 'afterSeq');
        END IF;
        FOR entry IN SELECT value FROM jsonb_array_elements(request -> 'entries') LOOP
          body := body + 1;
          FOR claimed IN SELECT value::bigint FROM jsonb_array_elements_text(entry -> 'clients') LOOP
            INSERT INTO client_owners (document, client, participant, role)
              VALUES (entry ->> 'document', claimed, entry ->> 'author', entry ->> 'role')
              ON CONFLICT DO NOTHING;
            SELECT o.participant INTO owner FROM client_owners o
              WHERE o.document = entry ->> 'document' AND o.client = claimed;
            IF owner <> entry ->> 'author' THEN
              RAISE EXCEPTION USING ERRCODE = 'PB002',
                MESSAGE = format('Client id %s of %s belongs to another participant.', claimed, entry ->> 'document');
            END IF;
          END LOOP;
          UPDATE documents SET seq = seq + 1 WHERE document = entry ->> 'document' RETURNING seq INTO last;
          INSERT INTO updates (document, seq, bytes, author, role, at)
            VALUES (entry ->> 'document', last, bodies[body], entry ->> 'author', entry ->> 'role', entry ->> 'at');
          INSERT INTO marks (document, seq, place, kind, record, state)
            SELECT entry ->> 'document', last, place - 1, mark ->> 'kind', mark ->> 'record', mark ->> 'state'
            FROM jsonb_array_elements(entry -> 'marks') WITH ORDINALITY AS listed (mark, place);
          seqs := seqs || last;
        END LOOP;
        answers := answers || jsonb_build_object('kind', 'done', 'seqs', to_jsonb(seqs));
      EXCEPTION
        WHEN SQLSTATE 'PB001' THEN answers := answers || jsonb_build_object('kind', 'behind', 'message', SQLERRM);
        WHEN SQLSTATE 'PB002' THEN answers := answers || jsonb_build_object('kind', 'conflict', 'message', SQLERRM);
      END;
      body := first_body + jsonb_array_length(request -> 'entries');
    END LOOP;
    RETURN answers;
  END
  $function$;

  -- Casting and closing exclude each other: a ballot that was taken is counted, wherever both were asked for.
  CREATE FUNCTION cast_ballot(cast_case text, cast_vote text, cast_by text, chosen integer, sure integer, cast_at text)
  RETURNS boolean LANGUAGE plpgsql AS $function$
  BEGIN
    PERFORM pg_advisory_xact_lock_shared(hashtextextended(cast_case || ' ' || cast_vote, 0));
    IF EXISTS (SELECT FROM closed_votes WHERE case_id = cast_case AND vote = cast_vote) THEN RETURN false; END IF;
    INSERT INTO ballots (case_id, vote, participant, option, confidence, at)
      VALUES (cast_case, cast_vote, cast_by, chosen, sure, cast_at)
      ON CONFLICT (case_id, vote, participant)
      DO UPDATE SET option = excluded.option, confidence = excluded.confidence, at = excluded.at;
    RETURN true;
  END
  $function$;
  CREATE FUNCTION close_vote(closed_case text, closed_vote text) RETURNS void LANGUAGE plpgsql AS $function$
  BEGIN
    PERFORM pg_advisory_xact_lock(hashtextextended(closed_case || ' ' || closed_vote, 0));
    INSERT INTO closed_votes (case_id, vote) VALUES (closed_case, closed_vote) ON CONFLICT DO NOTHING;
  END
  $function$;
  `,
  `
  CREATE TABLE withdrawals (
    id ${exact} PRIMARY KEY,
    case_id ${exact} NOT NULL,
    document ${exact} NOT NULL,
    records ${exact} NOT NULL,
    content ${exact} NOT NULL,
    reason ${exact} NOT NULL,
    participant ${exact} NOT NULL,
    role ${exact} NOT NULL,
    at ${exact} NOT NULL,
    finished integer NOT NULL DEFAULT 0
  );
  CREATE INDEX withdrawals_by_case ON withdrawals (case_id, at);
  `,
  `
  CREATE TABLE unnamed_authors (
    case_id ${exact} NOT NULL,
    author ${exact} NOT NULL,
    participant ${exact} NOT NULL,
    picture_at ${exact},
    PRIMARY KEY (case_id, author)
  );
  `,
  `
  CREATE TABLE erasures (
    id ${exact} PRIMARY KEY,
    case_id ${exact} NOT NULL,
    programme ${exact} NOT NULL,
    participant ${exact} NOT NULL,
    at ${exact} NOT NULL,
    counts ${exact} NOT NULL
  );
  `,
  `
  -- Which processes there are and whom they have inside. Unlogged: worth nothing after a crash of the database.
  CREATE UNLOGGED TABLE nodes (
    node ${exact} PRIMARY KEY,
    seen_at timestamptz NOT NULL
  );
  CREATE UNLOGGED TABLE attendance (
    node ${exact} NOT NULL REFERENCES nodes (node) ON DELETE CASCADE,
    document ${exact} NOT NULL,
    present jsonb NOT NULL,
    PRIMARY KEY (node, document)
  );
  CREATE INDEX attendance_by_document ON attendance (document);

  -- SHA-256 of the key that signs sessions and tickets: all processes have to have the same.
  CREATE TABLE signing_key (fingerprint ${exact} PRIMARY KEY);
  `,
  `
  CREATE TABLE outcome_revision (last bigint NOT NULL);
  INSERT INTO outcome_revision (last) VALUES (0);
  CREATE TABLE case_outcomes (
    case_id ${exact} PRIMARY KEY,
    revision bigint NOT NULL UNIQUE,
    patient ${exact} NOT NULL,
    ear ${exact},
    device_class ${exact},
    coupling_site ${exact},
    pathology ${exact},
    malleus ${exact},
    incus ${exact},
    stapes ${exact},
    operated_on ${exact},
    tags ${exact} NOT NULL,
    forecast ${exact}
  );
  CREATE TABLE visit_outcomes (
    case_id ${exact} NOT NULL,
    ear ${exact} NOT NULL,
    visit ${exact} NOT NULL,
    place integer NOT NULL,
    occasion ${exact} NOT NULL,
    year integer,
    held_on ${exact},
    air ${exact} NOT NULL,
    bone ${exact} NOT NULL,
    sound_field ${exact} NOT NULL,
    aided ${exact} NOT NULL,
    words_percent double precision,
    PRIMARY KEY (case_id, ear, visit)
  );
  `,
  `
  -- Only a board that is moved here as a whole makes use of it: a programme names a case that comes after it.
  ALTER TABLE programmes ALTER CONSTRAINT programmes_last_on_fkey DEFERRABLE INITIALLY IMMEDIATE;
  `,
  `
  CREATE TABLE pictures (
    case_id ${exact} NOT NULL,
    id ${exact} NOT NULL,
    withdrawal ${exact},
    media_type ${exact} NOT NULL,
    bytes bytea NOT NULL,
    PRIMARY KEY (case_id, id)
  );
  CREATE INDEX pictures_by_withdrawal ON pictures (withdrawal);
  `,
]

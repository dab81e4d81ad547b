-- A rollout's document is kept in pieces: a change touches only the pieces that it changes.

CREATE TABLE rollout (
	id TEXT PRIMARY KEY,
	-- The site's name, as in the document; kept here for the list of rollouts.
	name TEXT NOT NULL,
	created_at TEXT NOT NULL,
	-- Set when it was deleted; it can be restored until it is erased.
	removed_at TEXT,
	removed_by TEXT,
	-- The number of the latest change, and the revision that it led to.
	last_change INTEGER NOT NULL,
	revision TEXT NOT NULL,
	-- Numbers of pieces are given out once, so that a change record never means another piece.
	next_piece INTEGER NOT NULL
) STRICT;

CREATE TABLE piece (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- Keys from the document's root, joined by dots.
	path TEXT NOT NULL,
	-- 0 is what stands at the path itself, from 1 on an entry of the list that stands there.
	number INTEGER NOT NULL,
	-- The order among the keys of one object, or among the entries of one list.
	position REAL NOT NULL,
	-- JSON. Of a list with entries in pieces only [], of an object with keys in pieces only {}.
	body TEXT NOT NULL CHECK (json_valid(body)),
	PRIMARY KEY (rollout, path, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE change (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	what TEXT NOT NULL,
	edit TEXT NOT NULL,
	params TEXT NOT NULL CHECK (json_valid(params)),
	revision TEXT NOT NULL,
	-- The change that this one took back.
	undoes INTEGER,
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, undoes) REFERENCES change (rollout, number)
) STRICT, WITHOUT ROWID;

CREATE INDEX change_undoes ON change (rollout, undoes) WHERE undoes IS NOT NULL;

-- What a change did to each piece; null before is a new piece, null after a removed one.
CREATE TABLE change_piece (
	rollout TEXT NOT NULL,
	change INTEGER NOT NULL,
	path TEXT NOT NULL,
	number INTEGER NOT NULL,
	position_before REAL,
	body_before TEXT,
	position_after REAL,
	body_after TEXT,
	PRIMARY KEY (rollout, change, path, number),
	FOREIGN KEY (rollout, change) REFERENCES change (rollout, number) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE INDEX change_piece_history ON change_piece (rollout, path, number, change);

-- What long work found, until somebody adopts it.
CREATE TABLE proposal (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	answer TEXT NOT NULL,
	params TEXT NOT NULL CHECK (json_valid(params)),
	-- The revision of the document that it was worked out for.
	revision TEXT NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	-- 1 when it was stopped early and this is the best until then.
	stopped_early INTEGER NOT NULL CHECK (stopped_early IN (0, 1)),
	seconds REAL NOT NULL,
	body TEXT NOT NULL CHECK (json_valid(body)),
	-- The change by which it was adopted.
	adopted_by INTEGER,
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, adopted_by) REFERENCES change (rollout, number)
) STRICT, WITHOUT ROWID;

-- Facts about this installation, such as that the demo was loaded once.
CREATE TABLE installation (
	key TEXT PRIMARY KEY,
	value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

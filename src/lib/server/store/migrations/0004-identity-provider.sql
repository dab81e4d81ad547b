-- What identity providers sent by SCIM (RFC 7643, 7644), and the tokens by which they may.

CREATE TABLE scim_token (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	-- SHA-256 of the token in hexadecimal digits; the token has 256 random bits and is kept nowhere.
	hash TEXT NOT NULL,
	label TEXT NOT NULL,
	created_at TEXT NOT NULL,
	created_by TEXT NOT NULL,
	used_at TEXT,
	revoked_at TEXT,
	revoked_by TEXT,
	PRIMARY KEY (rollout, number),
	UNIQUE (rollout, hash)
) STRICT, WITHOUT ROWID;

CREATE TABLE scim_setting (
	rollout TEXT PRIMARY KEY REFERENCES rollout (id) ON DELETE CASCADE,
	-- 1 when what arrives is applied, 0 when it is proposed.
	applied INTEGER NOT NULL CHECK (applied IN (0, 1)),
	-- The address under which the provider reaches this server.
	address TEXT
) STRICT, WITHOUT ROWID;

CREATE TABLE scim_user (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	id TEXT NOT NULL,
	-- Null when the provider deleted the user: what it had sent goes, the id and who it was for stay.
	body TEXT CHECK (body IS NULL OR json_valid(body)),
	-- The id of the person in the document.
	person TEXT NOT NULL,
	-- The day on which the provider last said that the user is gone.
	ended_on TEXT,
	version INTEGER NOT NULL,
	created_at TEXT NOT NULL,
	modified_at TEXT NOT NULL,
	-- The version of which a person set the proposal aside.
	set_aside INTEGER,
	PRIMARY KEY (rollout, number),
	UNIQUE (rollout, id)
) STRICT;

CREATE INDEX scim_user_person ON scim_user (rollout, person);

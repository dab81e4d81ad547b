-- Revisions that were issued: the document as it then was, kept whole, so that it can be looked at whatever came later.

CREATE TABLE issue (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- From 1: revision A. Given out once, also when an issue is withdrawn.
	number INTEGER NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	note TEXT NOT NULL,
	-- The number of the latest change at that time, and the revision that it had led to.
	change INTEGER NOT NULL,
	revision TEXT NOT NULL,
	-- Set when it was withdrawn; its document is then gone.
	withdrawn_at TEXT,
	withdrawn_by TEXT,
	document TEXT CHECK (document IS NULL OR json_valid(document)),
	CHECK ((document IS NULL) = (withdrawn_at IS NOT NULL)),
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, change) REFERENCES change (rollout, number)
) STRICT;

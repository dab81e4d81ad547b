-- The change record as a chain of hashes, so that an alteration shows and is located. Changes of earlier versions are sealed
-- by the step in code that belongs to this migration.

CREATE TABLE change_seal (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- The number of the change. No reference: a change that was removed must not take its seal with it.
	number INTEGER NOT NULL,
	-- By chance, so that the hash of the content tells nothing once the content is gone.
	salt TEXT NOT NULL,
	content TEXT NOT NULL,
	-- The hash of the seal before; of the first, what ties the record to its rollout.
	previous TEXT NOT NULL,
	hash TEXT NOT NULL,
	PRIMARY KEY (rollout, number)
) STRICT, WITHOUT ROWID;

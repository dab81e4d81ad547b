-- Copies of personal data that were taken out of the program: so that whoever removes people knows where else they stand.

CREATE TABLE copy (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	at TEXT NOT NULL,
	-- Empty once people were removed.
	who TEXT NOT NULL,
	-- What was taken: document, list, calendar, issue, file of a person.
	what TEXT NOT NULL,
	file TEXT NOT NULL,
	-- Set when somebody says that this copy is no more.
	destroyed_on TEXT,
	PRIMARY KEY (rollout, number)
) STRICT, WITHOUT ROWID;

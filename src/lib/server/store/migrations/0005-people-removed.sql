-- Changes whose content was taken out when people were removed: the chain still holds, since a seal carries the hash of what
-- stood there; what is left is held to a hash of its own.

-- The number of the change that removed the people, and the hash of the content that is left.
ALTER TABLE change_seal ADD COLUMN redacted_by INTEGER;
ALTER TABLE change_seal ADD COLUMN redacted_content TEXT;

import { type ReadDocument, readDocument, readValue } from '../../document/read';
import type { Result } from '../../kernel/result';
import { rulePacks } from '../../privacy/packs';

/** Reads the bytes or the text of a rollout document, with the rule packs that this program has; every fault at once. */
export function readRollout(input: Uint8Array | string): Result<ReadDocument> {
	return readDocument(input, { regimes: rulePacks.keys() });
}

/** As `readRollout`, of a value that was parsed already. */
export function readRolloutValue(value: unknown): Result<ReadDocument> {
	return readValue(value, { regimes: rulePacks.keys() });
}

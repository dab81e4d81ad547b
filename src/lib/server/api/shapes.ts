import type { Changed } from '../change-rollouts';
import type { OpenRollout } from '../open-rollouts';

/** What the API says of a rollout beside its document. */
export function rolloutShape({ id, name, revision, lastChange, createdAt, changedAt, changedBy }: OpenRollout) {
	return { id, name, revision, lastChange, createdAt, changedAt, changedBy };
}

/** What the API says after a change. */
export function changedShape({ open, change }: Changed) {
	return { ...rolloutShape(open), change };
}

/** The revision that a client says it has seen, from `If-Match`; a list or `*` asks for nothing in particular. */
export function revisionSeen(request: Request): string | undefined {
	return /^"([0-9a-f]+)"$/.exec(request.headers.get('if-match') ?? '')?.[1];
}

import type { LocalDate } from '../calendar/local-date';
import type { Notice } from '../document/schema';
import { groupBy } from '../kernel/group-by';

/** Tells which notice asks for fresh consent in place of another one. */
export type FindFresherNotice = (noticeId: string) => Notice | null;

/**
 * The notices of a site as they stand on a date: for each, the first notice that follows it through a chain of `replaces`,
 * however long, that needs fresh consent and is published by that date; null while there is none. Notices between them
 * need not be published; one without a date is not published. A chain that runs in a circle ends where it began.
 */
export function fresherNotices(notices: readonly Notice[], on: LocalDate): FindFresherNotice {
	const followersById = groupBy(
		notices.filter((notice) => notice.replaces !== null),
		(notice) => notice.replaces ?? ''
	);
	const known = new Map<string, Notice | null>();
	return (noticeId) => {
		const found = known.has(noticeId) ? known.get(noticeId) : search(noticeId, followersById, on);
		known.set(noticeId, found ?? null);
		return found ?? null;
	};
}

function search(noticeId: string, followersById: ReadonlyMap<string, readonly Notice[]>, on: LocalDate): Notice | null {
	const seen = new Set([noticeId]);
	const open = [noticeId];
	for (let id = open.shift(); id !== undefined; id = open.shift()) {
		for (const follower of followersById.get(id) ?? []) {
			if (seen.has(follower.id)) continue;
			if (follower.needsFreshConsent && follower.publishedOn !== null && follower.publishedOn <= on) return follower;
			seen.add(follower.id);
			open.push(follower.id);
		}
	}
	return null;
}

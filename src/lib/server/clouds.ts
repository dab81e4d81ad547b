import type { CloudFacts } from '$lib/components/sheet/clouds';
import type { CollectionName } from '$lib/core/document/collections';
import { type EntryChange, diffRollouts, entryKey } from '$lib/core/document/rollout-diff';
import { revisionLetter } from '$lib/core/document/revision-letter';
import type { Rollout } from '$lib/core/document/schema';
import { remembered } from '$lib/core/kernel/remembered';
import { shownAt } from './clock';
import { issuedRollout, latestIssue } from './issues';
import type { OpenRollout } from './open-rollouts';
import { store } from './store/current';

/** The sheet on which entries of a list, or a part, are edited. */
const sheetByCollection: Readonly<Record<string, string>> = {
	site: 'S-1',
	horizon: 'S-1',
	areas: 'S-1',
	doors: 'S-1',
	doorGroups: 'S-1',
	controllers: 'S-2',
	readers: 'S-2',
	people: 'P-1',
	shiftPatterns: 'P-3',
	absences: 'P-3',
	schedules: 'A-1',
	holidays: 'A-2',
	'holidays.coveredUntil': 'A-2',
	accessProfiles: 'A-3',
	assignments: 'A-3',
	waves: 'E-1',
	captureClasses: 'E-1',
	stations: 'E-1',
	walks: 'E-1',
	awayLimits: 'E-1',
	bookings: 'E-2',
	notices: 'R-1',
	consents: 'R-1',
	templates: 'R-2',
	holds: 'R-2',
	'privacy.regimes': 'R-2',
	'privacy.siteRules': 'R-2',
	requests: 'R-3',
	'privacy.office': 'R-5',
	templatePlaces: 'R-2',
	erasureOrders: 'R-2',
	'privacy.erasureRules': 'R-2'
};

const differences = new WeakMap<Rollout, { readonly since: Rollout; readonly changes: readonly EntryChange[] }>();

/** What differs between two states of a rollout, entry by entry; the latest comparison of a state is kept. */
export function differencesSince(since: Rollout, now: Rollout): readonly EntryChange[] {
	const known = differences.get(now);
	if (known?.since === since) return known.changes;
	const changes = diffRollouts(since, now);
	differences.set(now, { since, changes });
	return changes;
}

/** What changed since the last issued revision; null where none was issued. */
export function cloudsOf(open: OpenRollout): CloudFacts | null {
	const issue = latestIssue(open.id);
	const issued = issue && issuedRollout(open.id, issue.letter);
	if (!issue || !issued?.ok) return null;
	const isIssued = issue.revision === open.revision;
	const changes = isIssued ? [] : differencesSince(issued.value, open.rollout);
	const changed: Record<string, string[]> = {};
	const lines: Record<string, string[]> = {};
	const namesOf = namerOf(open.rollout);
	for (const change of changes) {
		if (change.change !== 'removed') (changed[change.collection] ??= []).push(...namesOf(change));
		const sheet = sheetByCollection[change.collection];
		if (sheet !== undefined) (lines[sheet] ??= []).push(lineOf(change));
	}
	return {
		letter: issue.letter,
		next: revisionLetter((store().issues.list(open.id)[0]?.number ?? 0) + 1),
		on: shownAt(open.rollout.site.timeZone, issue.at).replace(/,.*/, ''),
		note: issue.note,
		who: issue.who,
		isIssued,
		count: changes.length,
		changed,
		lines: Object.fromEntries(Object.entries(lines).map(([sheet, all]) => [sheet, shortened(all)]))
	};
}

/**
 * What entries are called by whoever draws them: their key; in a list without ids also their place (`#3`), and of consents,
 * which are told person by person, the person.
 */
function namerOf({ absences, enrollment, privacy }: Rollout): (change: EntryChange) => readonly string[] {
	const { walks, awayLimits } = enrollment;
	const { consents, templates, holds } = privacy;
	const lists: Partial<Record<string, readonly object[]>> = { absences, walks, awayLimits, consents, templates, holds };
	const names = new Map<string, Map<string, string[]>>();
	const namesIn = (collection: string, list: readonly object[]) => {
		const byKey = new Map<string, string[]>();
		for (const [place, entry] of list.entries()) {
			const own = remembered(byKey, entryKey(collection as CollectionName, entry), () => []);
			own.push(`#${place}`);
			if (collection === 'consents' && 'person' in entry) own.push(String(entry.person));
		}
		return byKey;
	};
	return ({ collection, key }) => {
		const list = lists[collection];
		if (list === undefined) return [key];
		return [key, ...(remembered(names, collection, () => namesIn(collection, list)).get(key) ?? [])];
	};
}

/** `Schedule Night: week, holidays changed`. */
export function lineOf({ kind, name, change, fields }: EntryChange): string {
	const what = kind === 'part' ? name : `${kind[0]?.toUpperCase()}${kind.slice(1)} ${name}`;
	return change === 'changed' && fields.length > 0
		? `${what}: ${fields.map(({ field }) => field).join(', ')} changed`
		: `${what} ${change}`;
}

/** A page lists a few; thousands of people would only make it heavy. */
const mostLines = 40;

function shortened(lines: readonly string[]): string[] {
	const more = lines.length - mostLines;
	return more <= 0 ? [...lines] : [...lines.slice(0, mostLines - 1), `and ${more + 1} more`];
}

import { checks } from '$lib/core/checks';
import { counted, listed, nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import { type Mend, mends } from '$lib/core/mends';
import { durationWords, sumWords } from '$lib/core/mends/support/words';

/** Who gains and who loses by a mend, as a row of its table. */
export interface MendRow {
	readonly who: string;
	readonly doors: string;
	readonly gained: string;
	readonly lost: string;
	readonly example: string;
}

/** A mend as the sheet shows it. */
export interface MendView {
	readonly id: string;
	readonly does: string;
	readonly isFact: boolean;
	/** What it does to the person of the finding and to others, one sentence each. */
	readonly sentences: readonly string[];
	readonly rows: readonly MendRow[];
	/** How many rows there are beside the ones shown. */
	readonly moreRows: number;
	readonly raises: readonly string[];
	readonly alsoClears: readonly string[];
	readonly moreCleared: number;
}

const mostRows = 12;
const mostCleared = 20;

/** A mend with its effects in sentences and as a table. */
export function mendView(rollout: Rollout, mend: Mend): MendView {
	const { effects, raises, alsoClears } = mend;
	return {
		id: mend.id,
		does: mend.does,
		isFact: mend.isFact,
		sentences: [...mend.notes, ...effectSentences(rollout, mend)],
		rows: effects.rows.slice(0, mostRows).map(({ people, doors, gained, lost, examples }) => ({
			who: listed(people.map((id) => personName(rollout, id))),
			doors: listed(doors.map((id) => nameOf(rollout.doors, id))),
			gained: gained > 0 ? durationWords(gained) : '',
			lost: lost > 0 ? durationWords(lost) : '',
			example: examples[0] ? `${shortTime(examples[0].from)} to ${shortTime(examples[0].to)}` : ''
		})),
		moreRows: Math.max(0, effects.rows.length - mostRows),
		raises: raises.map(({ message }) => message),
		alsoClears: alsoClears.slice(0, mostCleared).map(({ message }) => message),
		moreCleared: Math.max(0, alsoClears.length - mostCleared)
	};
}

function effectSentences(rollout: Rollout, { effects: { subject, others, rows } }: Mend): string[] {
	if (rows.length === 0) return ['Nobody gains and nobody loses a minute at any door.'];
	const person = rows.find(({ isSubject }) => isSubject)?.people[0];
	return [
		...(person === undefined ? [] : [`${personName(rollout, person)} ${sumWords(subject, true)}.`]),
		others.people === 0
			? 'Nobody else gains or loses anything.'
			: `${counted(others.people, person === undefined ? 'person' : 'other person', person === undefined ? 'people' : 'other people')} ${sumWords(others, others.people === 1)}.`
	];
}

/** `2027-07-02 17:00`, as clocks at the site show it. */
function shortTime(text: string): string {
	return text.slice(0, 16).replace('T', ' ');
}

/** Where the ways to mend a finding stand, below the rollout; null for a code that has none. */
export function mendHref(code: string, subject: Readonly<Record<string, string | readonly string[]>>): string | null {
	if (!mends.has(code)) return null;
	const query = new URLSearchParams({ code });
	for (const [key, value] of Object.entries(subject)) query.set(key, String(value));
	return `findings/mend?${query.toString()}`;
}

/** What an address asks to be mended: the parameters of the question. */
export function mendQuestion(url: URL): Record<string, string> {
	const asked = ['code', ...new Set([...mends.values()].flatMap(({ asks }) => asks))];
	return Object.fromEntries(
		asked.flatMap((key) => {
			const value = url.searchParams.get(key);
			return value === null ? [] : [[key, value] as const];
		})
	);
}

/** What findings of a code are called. */
export function findingTitle(code: string): string {
	return checks.get(code)?.title ?? code;
}

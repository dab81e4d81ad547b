import { standingByPerson, type Standing } from '$lib/core/enrollment/standing';
import { nameOf } from '$lib/core/document/names';
import type { Person, Rollout } from '$lib/core/document/schema';
import type { Finding } from '$lib/core/kernel/finding';
import { byCodeUnits } from '$lib/core/kernel/compare';

/** What the list of people is narrowed to; all empty for everybody. */
export interface PeopleFilter {
	/** Part of a name, staff number, job or e-mail; case and accents do not matter. */
	readonly find: string;
	readonly department: string;
	readonly wave: string;
	readonly standing: string;
}

/** A person in the list. */
export interface PersonRow {
	readonly id: string;
	readonly name: string;
	readonly department: string | null;
	readonly job: string | null;
	readonly shiftPattern: string | null;
	readonly wave: string | null;
	readonly standing: Standing;
	/** Findings of severity error. */
	readonly errors: number;
}

/** The people who fit a filter, as rows. Sorted by `sort` (a key of the row), else in the order of the document. */
export function peopleRows(
	rollout: Rollout,
	findings: readonly Finding[],
	filter: PeopleFilter,
	sort?: { readonly key: string; readonly isDescending: boolean }
): PersonRow[] {
	const standings = standingByPerson(rollout);
	const errorsByPerson = new Map<string, number>();
	for (const { severity, subject } of findings) {
		const person = subject['person'];
		if (severity === 'error' && typeof person === 'string') {
			errorsByPerson.set(person, (errorsByPerson.get(person) ?? 0) + 1);
		}
	}
	const needle = plain(filter.find);
	const rows = rollout.people
		.filter(
			(person) =>
				(filter.department === '' || person.department === filter.department) &&
				(filter.wave === '' || person.wave === filter.wave) &&
				(filter.standing === '' || standings.get(person.id) === filter.standing) &&
				(needle === '' || wordsOf(person).includes(needle))
		)
		.map((person) => ({
			id: person.id,
			name: person.name ?? person.id,
			department: person.department,
			job: person.job,
			shiftPattern: person.shiftPattern === null ? null : nameOf(rollout.shiftPatterns, person.shiftPattern),
			wave: person.wave === null ? null : nameOf(rollout.enrollment.waves, person.wave),
			standing: standings.get(person.id) ?? ('to-book' as const),
			errors: errorsByPerson.get(person.id) ?? 0
		}));
	return sort ? sorted(rows, sort.key as keyof PersonRow, sort.isDescending) : rows;
}

function sorted(rows: PersonRow[], key: keyof PersonRow, isDescending: boolean): PersonRow[] {
	const order = rows.toSorted((a, b) => {
		const [left, right] = [a[key] ?? '', b[key] ?? ''];
		if (typeof left === 'number' && typeof right === 'number') return left - right;
		return byCodeUnits(String(left), String(right));
	});
	return isDescending ? order.toReversed() : order;
}

function wordsOf({ id, name, job, email }: Person): string {
	return plain([id, name, job, email].join(' '));
}

function plain(text: string): string {
	return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().trim();
}

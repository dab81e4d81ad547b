import type { RosterConsequence } from '$lib/core/answers/support/roster-consequences';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { Duplicate, Duplicates } from '$lib/core/roster/duplicates';
import { type RosterConflict, conflictKey } from '$lib/core/roster/origins';
import type { RosterAnswer, RosterValue } from '$lib/core/roster/roster-answer';
import { shownAt } from '$lib/server/clock';
import type { PairDecision } from '$lib/server/http/roster-form';
import type { RosterPreview, SaidOfList } from '$lib/server/roster-preview';

/** How many of each list a page shows; the counts tell the whole. */
const most = 300;

/** So many conflicts and pairs are shown at once; those that are decided make room. */
const mostAsked = 100;

/** A list as the sheet shows it before it is taken over. */
export function previewView(rollout: Rollout, preview: RosterPreview, said: SaidOfList) {
	const { conflicts, duplicates, oddRows, following, faults, shape } = preview;
	return {
		proposal: proposalView(rollout, { ...preview.answer, changes: preview.undisputed }),
		following: faults.length > 0 ? null : followingView(rollout, following),
		faults: faults.length > 0 ? faults : null,
		pairs: pairsView(duplicates, rollout),
		oddRows,
		conflicts: conflictsView(rollout, preview.answer, conflicts, said),
		hasShape: shape !== null
	};
}

function proposalView(rollout: Rollout, answer: RosterAnswer) {
	const personById = new Map(answer.people.map((person) => [person.id, person]));
	const { joined, moved, left, unchanged } = answer.changes;
	return {
		encoding: answer.encoding,
		delimiter: answer.delimiter ?? null,
		sheet: answer.sheet ?? null,
		sheets: answer.sheets ?? [],
		columns: answer.columns,
		problems: answer.problems.slice(0, most),
		counts: {
			people: answer.people.length,
			problems: answer.problems.length,
			joined: joined.length,
			moved: moved.length,
			left: left.length,
			unchanged: unchanged.length
		},
		joined: joined.slice(0, most).map((id) => {
			const person = personById.get(id);
			return { id, name: person?.name ?? id, department: person?.department ?? '', job: person?.job ?? '' };
		}),
		moved: moved.slice(0, most).map(({ person, fields }) => ({
			id: person,
			name: personById.get(person)?.name ?? nameOf(rollout.people, person),
			fields: Object.entries(fields).map(([field, [before, after]]) => ({
				field,
				before: shownValue(before),
				after: shownValue(after)
			}))
		})),
		left: left.slice(0, most).map((id) => ({ id, name: nameOf(rollout.people, id) })),
		isHalfMissing: isHalfMissing(rollout, answer.changes)
	};
}

/** So many would leave that the file may be only a part of the list. */
export function isHalfMissing({ people }: Rollout, { left }: Pick<RosterAnswer['changes'], 'left'>): boolean {
	return people.length >= 4 && left.length * 2 >= people.length;
}

/** Rows that cannot all be right, side by side, each with what can be decided about it. */
function pairsView({ columns, found, count }: Duplicates, rollout: Rollout) {
	return {
		count,
		columns: columns.map(({ header }) => header),
		found: found.map((duplicate) => ({
			kind: duplicate.kind,
			key: duplicate.sides.map(({ row, id }) => `${row ?? 'here'} ${id}`).join(' '),
			sides: duplicate.sides.map(({ row, id, texts }) => ({
				where: row === null ? 'At the site, not in the list' : `Row ${row}`,
				id,
				texts
			})),
			differs: columns.map((_, at) => new Set(duplicate.sides.map(({ texts }) => texts[at])).size > 1),
			choices: choicesFor(duplicate, rollout).map(({ label, decision }) => ({ label, value: JSON.stringify(decision) }))
		}))
	};
}

function choicesFor(
	{ kind, sides, idColumn }: Duplicate,
	rollout: Rollout
): readonly { readonly label: string; readonly decision: PairDecision }[] {
	const rows = sides.flatMap(({ row }) => (row === null ? [] : [row]));
	if (kind === 'one-number') {
		return rows.map((kept) => ({
			label: `Row ${kept} counts`,
			decision: { leaveOut: rows.filter((row) => row !== kept) }
		}));
	}
	const [first, second] = sides;
	if (!first || !second || second.row === null) return [];
	const two = { label: 'They are two people', decision: { apart: [first.id, second.id] as [string, string] } };
	if (first.row === null) {
		const number = { row: second.row, column: idColumn, value: first.id };
		return [
			{ label: `One person; ${first.id} stays the number here`, decision: { number } },
			{ label: `One person; ${second.id} is the number now`, decision: { renumber: { at: first.id, to: second.id } } },
			two
		];
	}
	const here = new Set(rollout.people.map(({ id }) => id));
	const known = ({ id }: { id: string }): string => (here.has(id) ? `${id} (known here)` : id);
	return [
		{ label: `One person; ${known(first)} is right`, decision: { leaveOut: [second.row] } },
		{ label: `One person; ${known(second)} is right`, decision: { leaveOut: [first.row] } },
		two
	];
}

function conflictsView(
	rollout: Rollout,
	{ people }: RosterAnswer,
	conflicts: readonly RosterConflict[],
	{ choices }: SaidOfList
) {
	const chosen = new Map(choices);
	const names = new Map(people.map(({ id, name }) => [id, name]));
	const open = conflicts.filter((one) => !one.isKept);
	const undecided = open.filter((one) => !chosen.has(conflictKey(one))).length;
	const inOrder = open.toSorted((a, b) => Number(chosen.has(conflictKey(a))) - Number(chosen.has(conflictKey(b))));
	return {
		count: open.length,
		undecided,
		kept: conflicts.length - open.length,
		rows: inOrder.slice(0, mostAsked).map((one) => {
			const { person, kind, field, here, roster, origin, before } = one;
			return {
				key: conflictKey(one),
				id: person,
				name: names.get(person) ?? nameOf(rollout.people, person),
				kind,
				field,
				here: shownValue(here),
				roster: shownValue(roster),
				who: origin.who,
				at: shownAt(rollout.site.timeZone, origin.at),
				change: origin.change,
				before: before === undefined ? null : shownValue(before),
				isListUnchanged: before !== undefined && shownValue(before) === shownValue(roster),
				choice: chosen.get(conflictKey(one)) ?? null
			};
		})
	};
}

/** What follows from taking a roster over, for the sheet: one line for each thing that follows for a person. */
export function followingView(rollout: Rollout, consequences: readonly RosterConsequence[]) {
	const doors = new Map(rollout.doors.map(({ id, name }) => [id, name ?? id]));
	const stations = new Map(rollout.enrollment.stations.map(({ id, name }) => [id, name ?? id]));
	const listed = (ids: readonly string[]): string => ids.map((id) => doors.get(id) ?? id).join(', ');
	const count = (isMeant: (one: RosterConsequence) => boolean): number => consequences.filter(isMeant).length;
	return {
		counts: {
			gain: count(({ gains }) => gains.length > 0),
			lose: count(({ loses }) => loses.length > 0),
			freed: count(({ freed }) => freed !== null),
			toBook: count(({ needsBooking }) => needsBooking),
			toErase: count(({ eraseBy }) => eraseBy !== null),
			toAsk: count(({ needsConsent }) => needsConsent)
		},
		people: consequences.length,
		rows: consequences
			.slice(0, most)
			.map(({ person, name, why, gains, loses, freed, needsBooking, eraseBy, needsConsent }) => ({
				id: person,
				name,
				why,
				lines: [
					...(gains.length > 0 ? [`Gains time at ${listed(gains)}.`] : []),
					...(loses.length > 0 ? [`Loses time at ${listed(loses)}.`] : []),
					...(freed === null
						? []
						: [
								`The booking at ${stations.get(freed.station) ?? freed.station}, ${freed.start.replace('T', ' ')}, no longer holds.`
							]),
					...(needsBooking ? ['Needs a booking for enrollment.'] : []),
					...(eraseBy === null ? [] : [`The template is to be erased by ${eraseBy}.`]),
					...(needsConsent ? ['Is to be given the notice and asked for consent.'] : [])
				]
			}))
	};
}

/** A value of a person in words. */
export function shownValue(value: RosterValue): string {
	return value === null || value.length === 0 ? 'nothing' : typeof value === 'string' ? value : value.join(', ');
}

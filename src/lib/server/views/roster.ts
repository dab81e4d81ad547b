import type { RosterConsequence } from '$lib/core/answers/support/roster-consequences';
import { nameOf } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { RosterAnswer, RosterValue } from '$lib/core/roster/roster-answer';

/** How many of each list a page shows; the counts tell the whole. */
const most = 300;

/** A proposal as the preview shows it. */
export function rosterView(rollout: Rollout, answer: RosterAnswer) {
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
			name: nameOf(rollout.people, person),
			fields: Object.entries(fields).map(([field, [before, after]]) => ({
				field,
				before: said(before),
				after: said(after)
			}))
		})),
		left: left.slice(0, most).map((id) => ({ id, name: nameOf(rollout.people, id) })),
		/** So many would leave that the file may be only a part of the list. */
		isHalfMissing: rollout.people.length >= 4 && left.length * 2 >= rollout.people.length
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

function said(value: RosterValue): string {
	return value === null || value.length === 0 ? 'nothing' : typeof value === 'string' ? value : value.join(', ');
}

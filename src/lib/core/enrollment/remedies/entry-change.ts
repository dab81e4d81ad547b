import type { AwayLimit, Booking, Rollout, Station, Wave } from '../../document/schema';

/**
 * A change to one entry of the enrollment part, as plain data: the edit that makes it, with its parameters. The entry is the whole
 * new entry as it stands in the document.
 */
export type EntryChange =
	| PutEntry<'stations', string, Station>
	| PutEntry<'waves', string, Wave>
	| PutEntry<'awayLimits', number, AwayLimit>
	| PutEntry<'bookings', number, Booking>;

interface PutEntry<Collection extends string, At extends string | number, Entry> {
	readonly edit: 'put-entry';
	readonly params: {
		readonly collection: Collection;
		/** Id of the entry that is replaced, or its place in a list without ids. */
		readonly at: At;
		readonly entry: Entry;
	};
}

/** Puts a changed station in the place of the one of its id. */
export function putStation(entry: Station): EntryChange {
	return { edit: 'put-entry', params: { collection: 'stations', at: entry.id, entry } };
}

/** Puts a changed wave in the place of the one of its id. */
export function putWave(entry: Wave): EntryChange {
	return { edit: 'put-entry', params: { collection: 'waves', at: entry.id, entry } };
}

/** Puts a changed away-limit in a place of their list. */
export function putAwayLimit(at: number, entry: AwayLimit): EntryChange {
	return { edit: 'put-entry', params: { collection: 'awayLimits', at, entry } };
}

/** Puts a changed booking in a place of their list. */
export function putBooking(at: number, entry: Booking): EntryChange {
	return { edit: 'put-entry', params: { collection: 'bookings', at, entry } };
}

/** The rollout with the changes made, one after the other; the rollout itself stays as it is. Changes of unknown entries do nothing. */
export function withChanges(rollout: Rollout, changes: readonly EntryChange[]): Rollout {
	let { stations, waves, awayLimits, bookings } = rollout.enrollment;
	for (const { params } of changes) {
		switch (params.collection) {
			case 'stations':
				stations = stations.map((one) => (one.id === params.at ? params.entry : one));
				break;
			case 'waves':
				waves = waves.map((one) => (one.id === params.at ? params.entry : one));
				break;
			case 'awayLimits':
				awayLimits = awayLimits.map((one, place) => (place === params.at ? params.entry : one));
				break;
			case 'bookings':
				bookings = bookings.map((one, place) => (place === params.at ? params.entry : one));
				break;
		}
	}
	return { ...rollout, enrollment: { ...rollout.enrollment, stations, waves, awayLimits, bookings } };
}

/** The same changes with one for each entry: of several to one entry the last holds all of them. */
export function withoutRepeats(changes: readonly EntryChange[]): EntryChange[] {
	const last = new Map(changes.map((change) => [`${change.params.collection} ${change.params.at}`, change]));
	return [...last.values()];
}

import { epochDayOf, dateOf, plusDays } from '$lib/core/calendar/local-date';
import { clockText, stretch } from '$lib/core/calendar/stretch';
import { nameOf, personName } from '$lib/core/document/names';
import type { Rollout, Station } from '$lib/core/document/schema';
import { type EntryChange, putAwayLimit, putStation, putWave } from '$lib/core/enrollment/remedies/entry-change';
import { type Fault, fault } from '$lib/core/kernel/fault';
import { textIn } from '$lib/server/http/forms';
import { type Outcome, refuse } from '$lib/server/outcome';

/**
 * The changes that the form of the what-if sheet asks for: more lanes, longer stretches, a raised away-limit, a later due date. A
 * field that is empty changes nothing; several changes of one station are one.
 */
export function changesIn(rollout: Rollout, form: FormData): Outcome<EntryChange[]> {
	const faults: Fault[] = [];
	const amount = (name: string, most: number): number => {
		const text = textIn(form, name);
		if (text === null) return 0;
		const value = Number(text);
		if (Number.isInteger(value) && value >= 0 && value <= most) return value;
		faults.push(fault(['entry', name], text, `a whole number from 0 to ${most}`));
		return 0;
	};
	const { stations, waves, awayLimits } = rollout.enrollment;
	const [lanes, longer] = [amount('lanes', 50), amount('longer', 720)];
	const [raised, later] = [amount('raised', 1000), amount('later', 366)];
	const station = stations.find(({ id }) => id === textIn(form, 'station'));
	const wave = waves.find(({ id }) => id === textIn(form, 'wave'));
	const place = Number(textIn(form, 'limit') ?? '-1');
	const limit = awayLimits[place];
	const changes: EntryChange[] = [];
	if (lanes + longer > 0) {
		if (station) changes.push(putStation(grown(station, lanes, longer)));
		else faults.push(fault(['entry', 'station'], textIn(form, 'station'), 'the station that is to change'));
	}
	if (raised > 0) {
		if (limit) changes.push(putAwayLimit(place, { ...limit, maxAway: (limit.maxAway ?? 0) + raised }));
		else faults.push(fault(['entry', 'limit'], textIn(form, 'limit'), 'the department whose limit is to rise'));
	}
	if (later > 0) {
		const due = wave?.enrollBy;
		if (wave && due) changes.push(putWave({ ...wave, enrollBy: dateOf(plusDays(epochDayOf(due), later)) }));
		else faults.push(fault(['entry', 'wave'], textIn(form, 'wave'), 'the wave whose date is to move'));
	}
	if (faults.length === 0 && changes.length === 0) faults.push(fault(['changes'], 0, 'at least one change to try'));
	return faults.length > 0 ? refuse('invalid', faults) : { ok: true, value: changes };
}

/** A station with more lanes, and every stretch that much longer at its end, to midnight at most. */
function grown(station: Station, lanes: number, minutes: number): Station {
	const open = station.open.map((opening) => {
		const { from, to } = stretch(opening.at);
		const end = to >= 1440 ? to : Math.min(1440, to + minutes);
		return minutes === 0 ? opening : { ...opening, at: `${clockText(from)}-${clockText(end)}` };
	});
	return { ...station, lanes: station.lanes + lanes, open };
}

/** What the changes of a question are, in words, told by how they differ from the rollout as it is now. */
export function changesText(rollout: Rollout, params: unknown): string[] {
	const { edits } = params as { edits?: unknown };
	if (typeof edits !== 'string') return [];
	const changes = JSON.parse(edits) as EntryChange[];
	return changes.map(({ params: change }) => {
		switch (change.collection) {
			case 'stations':
				return stationText(rollout, change.entry);
			case 'waves':
				return `${nameOf(rollout.enrollment.waves, change.at)}: enroll by ${change.entry.enrollBy ?? 'no date'}`;
			case 'awayLimits':
				return `${change.entry.department}: at most ${change.entry.maxAway ?? 'any number'} away`;
			case 'bookings':
				return `${personName(rollout, change.entry.person)}: the booking may be moved`;
		}
	});
}

function stationText(rollout: Rollout, station: Station): string {
	const before = rollout.enrollment.stations.find(({ id }) => id === station.id);
	const known = new Set(before?.open.map(({ date, at }) => `${date} ${at}`));
	const opened = station.open.filter(({ date, at }) => !known.has(`${date} ${at}`));
	const parts = [
		...(before?.lanes === station.lanes ? [] : [`${station.lanes} lanes`]),
		...opened.slice(0, 4).map(({ date, at }) => `open ${date} ${at}`),
		...(opened.length > 4 ? [`and ${opened.length - 4} more stretches`] : []),
		...station.serves.filter((need) => !before?.serves.includes(need)).map((need) => `serves ${need}`)
	];
	return `${nameOf(rollout.enrollment.stations, station.id)}: ${parts.length === 0 ? 'as it is now' : parts.join(', ')}`;
}

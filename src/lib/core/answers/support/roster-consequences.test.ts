import { expect, test } from 'vitest';
import type { LocalDate } from '../../calendar/local-date';
import { readValue } from '../../document/read';
import { importRoster } from '../../roster/import-roster';
import { rosterConsequences } from './roster-consequences';

const today = '2027-01-05' as LocalDate;
const read = readValue(
	{
		format: 'doorwright.rollout',
		version: 1,
		site: { name: 'Larkfen', timeZone: 'America/Chicago' },
		horizon: { from: '2027-01-04', until: '2027-01-17' },
		areas: [{ id: 'street', outside: true }, { id: 'dock' }, { id: 'office' }],
		doors: [
			{ id: 'to-dock', from: 'street', to: 'dock' },
			{ id: 'to-office', from: 'street', to: 'office' }
		],
		doorGroups: [
			{ id: 'docks', doors: ['to-dock'] },
			{ id: 'offices', doors: ['to-office'] }
		],
		schedules: [{ id: 'always', week: { mon: ['08:00-17:00'], tue: ['08:00-17:00'], wed: ['08:00-17:00'] } }],
		people: [
			{ id: '1', name: 'Ana', department: 'Dock', startsOn: '2020-01-02' },
			{ id: '2', name: 'Ben', department: 'Dock', startsOn: '2020-01-02' },
			{ id: '3', name: 'Cem', department: 'Dock', startsOn: '2020-01-02' },
			{ id: '4', name: 'Dan', department: 'Dock', startsOn: '2020-01-02' }
		],
		accessProfiles: [
			{ id: 'dock-staff', entries: [{ doorGroup: 'docks', schedule: 'always' }] },
			{ id: 'office-staff', entries: [{ doorGroup: 'offices', schedule: 'always' }] }
		],
		assignments: [
			{ id: 'a1', who: { departments: ['Dock'] }, accessProfile: 'dock-staff' },
			{ id: 'a2', who: { departments: ['Office'] }, accessProfile: 'office-staff' }
		],
		enrollment: {
			captureClasses: [{ id: 'standard', minutes: 10 }],
			stations: [{ id: 's', area: 'dock', open: [{ date: '2027-01-11', at: '08:00-12:00' }] }],
			bookings: [
				{ person: '2', station: 's', lane: 1, start: '2027-01-11T08:00', minutes: 10 },
				{ person: '3', station: 's', lane: 1, start: '2027-01-11T08:10', minutes: 10 }
			]
		},
		privacy: {
			siteRules: { daysAfterLeaving: 7 },
			templates: [{ person: '4', enrolledOn: '2026-12-01', storedOn: ['controller'] }]
		}
	},
	{ regimes: [] }
);

const follow = (...rows: string[]) => {
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	const text = ['ID;Name;Department;Start date', ...rows].join('\n');
	const answer = importRoster(new TextEncoder().encode(text), { into: read.value.rollout });
	if (!answer.ok) throw new Error(JSON.stringify(answer.faults));
	const result = rosterConsequences(read.value, answer.value, today, today);
	if (!result.ok) throw new Error(JSON.stringify(result.faults));
	return result.value;
};
const [ana, ben, cem, dan] = ['1;Ana', '2;Ben', '3;Cem', '4;Dan'].map((who) => `${who};Dock;2020-01-02`);
const nothing = { gains: [], loses: [], freed: null, needsBooking: false, eraseBy: null, needsConsent: false };

test('nothing follows from a roster that changes nothing', () => {
	expect(follow(ana ?? '', ben ?? '', cem ?? '', dan ?? '')).toEqual([]);
});

test('who joins gains doors, and is to be booked and asked for consent', () => {
	expect(follow(ana ?? '', ben ?? '', cem ?? '', dan ?? '', '5;Eva;Office;2027-01-04')).toEqual([
		{
			...nothing,
			person: '5',
			name: 'Eva',
			why: 'joined',
			gains: ['to-office'],
			needsBooking: true,
			needsConsent: true
		}
	]);
});

test('who moves to another department gains its doors and loses the others', () => {
	expect(follow('1;Ana;Office;2020-01-02', ben ?? '', cem ?? '', dan ?? '')).toEqual([
		{ ...nothing, person: '1', name: 'Ana', why: 'moved', gains: ['to-office'], loses: ['to-dock'] }
	]);
});

test('who starts after their booking needs another one', () => {
	expect(follow(ana ?? '', '2;Ben;Dock;2027-01-12', cem ?? '', dan ?? '')[0]).toMatchObject({
		person: '2',
		why: 'moved',
		loses: ['to-dock'],
		freed: { person: '2', start: '2027-01-11T08:00' },
		needsBooking: true
	});
});

test('of who leaves the doors are lost, the booking is free, and the template becomes due by the rule of the site', () => {
	const [leaverBooked, leaverEnrolled, ...more] = follow(ana ?? '', ben ?? '');
	expect(more).toEqual([]);
	expect(leaverBooked).toMatchObject({
		person: '3',
		why: 'left',
		loses: ['to-dock'],
		needsBooking: false,
		eraseBy: null
	});
	expect(leaverBooked?.freed).toMatchObject({ start: '2027-01-11T08:10' });
	expect(leaverEnrolled).toMatchObject({ person: '4', why: 'left', freed: null, eraseBy: '2027-01-12' });
});

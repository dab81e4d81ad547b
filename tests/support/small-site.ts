import type { RolloutDocument } from '../../src/lib/core/document/schema';
import { readRolloutValue } from '../../src/lib/core/answers/support/read-rollout';

/**
 * A valid document of a small invented site in which something stands in every list, for tests that change it. Each call
 * gives a copy of its own.
 */
export function smallSite(changed: Readonly<Record<string, unknown>> = {}): RolloutDocument {
	const read = readRolloutValue({ ...structuredClone(site), ...changed });
	if (!read.ok) throw new Error(read.faults.map((one) => one.message).join('\n'));
	return read.value.document;
}

const site = {
	format: 'doorwright.rollout',
	version: 1,
	site: { name: 'Mill Lane Depot', timeZone: 'America/Chicago', country: 'US', region: 'IL', holidayArea: null },
	horizon: { from: '2027-01-04', until: '2027-12-31' },
	areas: [
		{ id: 'street', name: 'Street', outside: true },
		{ id: 'lobby', name: 'Lobby' },
		{ id: 'hall', name: 'Hall' }
	],
	doors: [
		{ id: 'main', name: 'Main entrance', from: 'street', to: 'lobby', controller: 'c1' },
		{ id: 'inner', from: 'lobby', to: 'hall', exit: 'reader', identify: 'card' }
	],
	doorGroups: [{ id: 'perimeter', name: 'Perimeter', doors: ['main'] }],
	controllers: [{ id: 'c1', maxDoors: 4 }],
	readers: [{ id: 'r1', door: 'main', controller: 'c1', module: 'm1', milliamps: 450 }],
	schedules: [
		{ id: 'office', week: { mon: ['07:00-19:00'], tue: [] }, holidays: { public: 'closed', shutdown: ['08:00-12:00'] } }
	],
	holidays: {
		coveredUntil: '2027-12-31',
		days: [{ date: '2027-05-31', name: 'Memorial Day', kind: 'public' }]
	},
	people: [
		{ id: '1001', name: 'Ada Quill', department: 'Packing', shiftPattern: 'early', workAreas: ['hall'], wave: 'w1' },
		{ id: '1002', name: 'Ben Marsh', department: 'Office', leavesOn: null, captureClass: 'standard' },
		{ id: '1003', name: 'Cleo Tarn', department: 'Office' }
	],
	shiftPatterns: [{ id: 'early', anchor: '2027-01-04', cycleDays: 7, shifts: [{ day: 0, at: '06:00-14:00' }] }],
	absences: [{ person: '1001', from: '2027-02-01', until: '2027-02-05' }],
	accessProfiles: [{ id: 'staff', entries: [{ doorGroup: 'perimeter', schedule: 'office' }] }],
	assignments: [{ id: 'a1', who: { people: ['1001'], departments: ['Office'] }, accessProfile: 'staff' }],
	enrollment: {
		gridMinutes: 5,
		waves: [{ id: 'w1', enrollBy: '2027-01-22', goLive: '2027-01-25' }],
		captureClasses: [{ id: 'standard', minutes: 8 }],
		stations: [{ id: 's1', area: 'lobby', open: [{ date: '2027-01-11', at: '08:00-12:00' }] }],
		walks: [{ between: ['hall', 'lobby'], minutes: 4 }],
		awayLimits: [{ department: 'Packing', maxAway: 2 }],
		bookings: [{ person: '1001', station: 's1', lane: 1, start: '2027-01-11T08:00', minutes: 8 }],
		visits: [{ person: '1002', station: 's1', on: '2027-01-11', minutes: 9, outcome: 'enrolled' }]
	},
	privacy: {
		regimes: ['us-il'],
		siteRules: { daysAfterLeaving: 7 },
		notices: [{ id: 'n1', version: '1.0' }],
		consents: [{ person: '1001', notice: 'n1', decision: 'given', on: '2027-01-05' }],
		templates: [{ person: '1001', enrolledOn: '2027-01-11', storedOn: ['c1', 's1'] }],
		holds: [{ person: '1002', from: '2027-05-01', until: null, reason: 'Claim' }]
	}
};

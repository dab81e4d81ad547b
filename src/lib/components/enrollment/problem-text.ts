import { listed, nameOf, personName } from '$lib/core/document/names';
import type { Rollout } from '$lib/core/document/schema';
import type { BookingProblem } from '$lib/core/enrollment/validity';

/** What is wrong with a booking, as a sentence for a person. */
export function problemText(problem: BookingProblem, rollout: Rollout): string {
	switch (problem.code) {
		case 'unknown-person':
		case 'unknown-station':
			return `Nothing known under the id ${problem.id}.`;
		case 'booked-twice':
			return `Is booked already, on ${problem.start.replace('T', ' at ')}.`;
		case 'wrong-minutes':
			return `Takes ${problem.expected ?? 'an unknown number of'} minutes by the capture class.`;
		case 'off-grid':
			return `Starts off the grid of ${problem.gridMinutes} minutes.`;
		case 'no-such-lane':
			return `The station has ${problem.lanes === 1 ? 'one lane' : `${problem.lanes} lanes`}.`;
		case 'station-closed':
			return problem.open.length === 0
				? 'The station is not open on this date.'
				: `Does not lie inside a stretch in which the station is open: ${listed(problem.open)}.`;
		case 'lane-taken':
			return `The lane is taken by ${personName(rollout, problem.by)}, with ${problem.turnoverMinutes} minutes of turnover.`;
		case 'not-free':
			return problem.hasPattern
				? `Is not on shift for the whole time, with a walk of ${problem.walkMinutes} minutes each way.`
				: 'Is absent or not employed at this time.';
		case 'needs-not-served':
			return `The station does not serve ${listed(problem.needs)}.`;
		case 'after-enroll-by':
			return `Ends after ${problem.enrollBy}, the last day for enrolling.`;
		case 'away-limit':
			return `More than ${problem.maxAway} of ${problem.department} would be away at once.`;
		case 'fixed-moved':
			return `Is fixed at ${problem.start.replace('T', ' ')}, ${nameOf(rollout.enrollment.stations, problem.station)}.`;
		case 'declined':
			return 'Declined or withdrew consent: needs another credential.';
		case 'enrolled':
			return 'Has a template already.';
	}
}

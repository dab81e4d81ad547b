import { expect, it } from 'vitest';
import { enrollSite } from '../../../../tests/support/enroll-site';
import { rolloutSchema } from '../document/schema';
import { putStation } from './remedies/entry-change';
import { whatIf } from './what-if';

const people = Array.from({ length: 6 }, (_, index) => ({ id: `p${index}` }));
const document = enrollSite({ people, open: { desk: ['2027-01-11 08:00-08:30'] }, minutes: [10], grid: 5 });

it('prices both plans by the cost table, and the changes with the second', () => {
	const rollout = rolloutSchema.parse(document);
	const [desk] = rollout.enrollment.stations;
	if (!desk) throw new Error('no desk');
	const { now, then } = whatIf(rollout, [putStation({ ...desk, lanes: 2 })], { seconds: 4, seed: 1 });
	// By hand: a session of 30 min at 40 an hour, three people for 10 min each at 30 an hour.
	expect(now).toMatchObject({ booked: 3, reasons: { 'station-time': 3 }, sessions: 1, cost: 20 + 15 });
	// Two such sessions, six people, and a day of the installer for the lane.
	expect(then).toMatchObject({ booked: 6, reasons: {}, sessions: 2, cost: 40 + 30 + 480 });
});

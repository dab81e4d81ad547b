import type { RolloutDocument } from '../../src/lib/core/document/schema';
import { enrollSite } from './enroll-site';

/** Six people, half an hour at the desk for three of them on the due date, and an hour that is open on the day after. */
export function shortSite(): RolloutDocument {
	const people = Array.from({ length: 6 }, (_, index) => ({
		id: `p${index + 1}`,
		name: `Person ${index + 1}`,
		wave: 'first'
	}));
	return enrollSite({
		people,
		minutes: [10],
		grid: 5,
		open: { desk: ['2027-01-11 08:00-08:30', '2027-01-12 08:00-09:00'] },
		more: { waves: [{ id: 'first', name: 'First wave', enrollBy: '2027-01-11' as never }] },
		rest: { site: { name: 'Shortfall Depot', timeZone: 'America/Chicago' } }
	});
}

import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'area-unreachable',
	severity: 'error',
	title: 'Area with no way in',
	why: 'No chain of doors joins this area with the outside: a door is missing in the plan, or leads elsewhere.',
	mend: 'Add the missing door, or correct the areas that a door joins.',
	source: 'Rollout document, findings',
	mendAt: ({ area }) => `site?area=${encodeURIComponent(String(area))}`,
	dependsOn: ({ areas, doors }) => [areas, doors],
	find: ({ access: { building } }) => {
		const joined = new Set(building.outside);
		const queue = [...building.outside];
		for (let area = queue.pop(); area !== undefined; area = queue.pop()) {
			for (const place of building.doorsByArea[area] ?? []) {
				const door = building.doors[place];
				if (!door) continue;
				const beyond = door.from === area ? door.to : door.from;
				if (joined.has(beyond)) continue;
				joined.add(beyond);
				queue.push(beyond);
			}
		}
		return building.areaIds.flatMap((id, place) => (joined.has(place) ? [] : [{ subject: { area: id } }]));
	},
	message: ({ subject }, rollout) =>
		`No chain of doors leads from outside to ${nameOf(rollout.areas, subject['area'])}.`
});

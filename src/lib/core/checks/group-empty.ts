import { nameOf } from '../document/names';
import { defineCheck } from './define-check';

export default defineCheck({
	code: 'group-empty',
	severity: 'warning',
	title: 'Door group without doors',
	why: 'A profile that gives it gives nothing.',
	mend: 'Put doors into it, or remove it.',
	source: 'Rollout document, findings',
	mendAt: ({ doorGroup }) => `site?group=${encodeURIComponent(String(doorGroup))}`,
	dependsOn: ({ doorGroups }) => [doorGroups],
	find: ({ rollout }) =>
		rollout.doorGroups.flatMap(({ id, doors }) => (doors.length > 0 ? [] : [{ subject: { doorGroup: id } }])),
	message: ({ subject }, rollout) => `Door group ${nameOf(rollout.doorGroups, subject['doorGroup'])} holds no door.`
});

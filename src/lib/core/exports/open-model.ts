import { defineExport } from './define-export';
import { openModelOf } from './open-model/index';

export default defineExport({
	name: 'open-model',
	title: 'Schedules, special days, access profiles and credentials in the open data model',
	summary:
		'Two JSON files: the entities with the field names of the ONVIF specifications for schedules, access rules and credentials; and a report of everything that these cannot hold as it is. No identifiers and no biometric data are in them; the system that enrolls adds identifiers. Read the report before a door follows the file.',
	files({ rollout, madeAt }) {
		if (rollout.schedules.length + rollout.accessProfiles.length + rollout.people.length === 0) return [];
		return [
			{
				name: 'open-model.json',
				type: 'application/json',
				about: 'The entities',
				content: () => json(openModelOf(rollout, madeAt).model)
			},
			{
				name: 'open-model-report.json',
				type: 'application/json',
				about: 'What differs, is written otherwise, or is left out, and what a device must support',
				content: () => json(openModelOf(rollout, madeAt).report)
			}
		];
	}
});

function json(value: unknown): string {
	return `${JSON.stringify(value, null, '\t')}\n`;
}

import { nameOf } from '../../document/names';
import type { Consent } from '../../document/schema';
import { defineList } from './define-list';

export default defineList<Consent>({
	name: 'consents',
	title: 'Consent entries',
	summary: 'A row for each decision that was recorded: who, on which notice, what, when and how.',
	sheet: 'consent',
	columns({ rollout }) {
		const noticeById = new Map(rollout.privacy.notices.map((notice) => [notice.id, notice]));
		return [
			{ key: 'person', label: 'Staff number', type: 'text', value: ({ person }) => person },
			{ key: 'name', label: 'Name', type: 'text', value: ({ person }) => nameOf(rollout.people, person) },
			{ key: 'decision', label: 'Decision', type: 'text', value: ({ decision }) => decision },
			{ key: 'on', label: 'On', type: 'date', value: ({ on }) => on },
			{ key: 'method', label: 'Method', type: 'text', value: ({ method }) => method },
			{ key: 'notice', label: 'Notice', type: 'text', value: ({ notice }) => notice },
			{
				key: 'version',
				label: 'Version',
				type: 'text',
				value: ({ notice }) => noticeById.get(notice)?.version ?? null
			},
			{
				key: 'language',
				label: 'Language',
				type: 'text',
				value: ({ notice }) => noticeById.get(notice)?.language ?? null
			}
		];
	},
	rows: ({ rollout }) => rollout.privacy.consents
});

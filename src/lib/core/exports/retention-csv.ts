import { nameOf } from '../document/names';
import { retentionOn } from '../privacy/retention';
import { defineExport } from './define-export';
import { csvOf } from './support/csv';

export default defineExport({
	name: 'retention-csv',
	title: 'Retention ledger',
	summary:
		'Every template with the day by which it must be erased, the rule that governs, and the places that still hold it. For review by counsel; no legal advice.',
	files({ rollout, today }) {
		const { templates } = retentionOn(rollout, today);
		if (templates.length === 0) return [];
		const rows = templates.map((one) => [
			one.person,
			nameOf(rollout.people, one.person),
			one.enrolledOn,
			one.state,
			one.eraseBy,
			one.rule,
			one.trigger,
			one.triggerDate,
			one.left.join('; ')
		]);
		const header = 'Staff number,Name,Enrolled on,State,Erase by,Rule,Trigger,Trigger date,Places left';
		const about = `${rows.length} templates as on ${today}`;
		return [{ name: `retention-${today}.csv`, type: 'text/csv', content: () => csvOf(header.split(','), rows), about }];
	}
});

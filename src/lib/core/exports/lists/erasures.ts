import { nameOf } from '../../document/names';
import type { Erasure, Template } from '../../document/schema';
import { defineList } from './define-list';

interface Row {
	readonly template: Template;
	readonly erasure: Erasure;
}

export default defineList<Row>({
	name: 'erasures',
	title: 'Erasures',
	summary: 'A row for each place from which a template is gone: when, by whom, and the evidence.',
	sheet: 'retention',
	columns: ({ rollout }) => [
		{ key: 'person', label: 'Staff number', type: 'text', value: ({ template }) => template.person },
		{ key: 'name', label: 'Name', type: 'text', value: ({ template }) => nameOf(rollout.people, template.person) },
		{ key: 'enrolledOn', label: 'Enrolled on', type: 'date', value: ({ template }) => template.enrolledOn },
		{ key: 'from', label: 'Place', type: 'text', value: ({ erasure }) => erasure.from },
		{ key: 'on', label: 'Erased on', type: 'date', value: ({ erasure }) => erasure.on },
		{ key: 'by', label: 'By', type: 'text', value: ({ erasure }) => erasure.by },
		{ key: 'evidence', label: 'Evidence', type: 'text', value: ({ erasure }) => erasure.evidence }
	],
	rows: ({ rollout }) =>
		rollout.privacy.templates.flatMap((template) => template.erasures.map((erasure) => ({ template, erasure })))
});

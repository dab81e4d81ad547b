import { describe, expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { kindsTreated, scheduleRows, treatmentOf } from './schedules';
import { treatmentsIn, weekIn } from './schedule-form';

const rollout = rolloutOf({
	areas: [{ id: 'yard', outside: true }, { id: 'hall' }],
	doors: [{ id: 'gate', from: 'yard', to: 'hall' }],
	doorGroups: [
		{ id: 'all', name: 'All doors', doors: ['gate'] },
		{ id: 'spare', doors: ['gate'] }
	],
	schedules: [
		{
			id: 'day',
			name: 'Days',
			week: { mon: ['07:00-19:00'] },
			holidays: { public: 'closed', defrost: ['08:00-09:00'] }
		},
		{ id: 'idle' }
	],
	holidays: {
		days: [
			{ date: '2027-05-31' as never, kind: 'public' },
			{ date: '2026-05-25' as never, kind: 'public' },
			{ date: '2027-07-02' as never, kind: 'half-day' }
		]
	},
	people: [
		{ id: '1', department: 'Dock' },
		{ id: '2', department: 'Dock', job: 'Lead' },
		{ id: '3', department: 'Office' }
	],
	accessProfiles: [
		{
			id: 'floor',
			name: 'Floor',
			entries: [
				{ doorGroup: 'all', schedule: 'day' },
				{ doorGroup: 'spare', schedule: 'day' }
			]
		},
		{ id: 'lead', entries: [{ doorGroup: 'all', schedule: 'day' }] }
	],
	assignments: [
		{ id: 'a', who: { departments: ['Dock'] }, accessProfile: 'floor' },
		{ id: 'b', who: { jobs: ['Lead'] }, accessProfile: 'lead' }
	]
});

test('a schedule tells the profiles that use it, and counts each person once', () => {
	const [day, idle] = scheduleRows(rollout, [
		{ code: 'x', severity: 'error', message: '', subject: { schedule: 'day' }, dates: [], count: 1 },
		{ code: 'x', severity: 'note', message: '', subject: { schedule: 'day' }, dates: [], count: 1 },
		{ code: 'x', severity: 'error', message: '', subject: { schedule: 'idle' }, dates: [], count: 1 }
	]);
	expect(day).toMatchObject({ name: 'Days', people: 2, errors: 1, findings: 2 });
	expect(day?.users).toEqual([
		{ profile: 'floor', name: 'Floor', doorGroups: ['All doors', 'spare'], people: 2 },
		{ profile: 'lead', name: 'lead', doorGroups: ['All doors'], people: 1 }
	]);
	expect(idle).toMatchObject({ name: 'idle', users: [], people: 0 });
});

test('kinds of the list and kinds that only a schedule names stand together, with the dates of the horizon', () => {
	const [day] = rollout.schedules;
	expect(day && kindsTreated(rollout, day)).toEqual([
		{ kind: 'public', treatment: 'closed', dates: ['2027-05-31'] },
		{ kind: 'half-day', treatment: null, dates: ['2027-07-02'] },
		{ kind: 'defrost', treatment: ['08:00-09:00'], dates: [] }
	]);
	expect(day && treatmentOf(day, 'toString')).toBeNull();
});

describe('forms', () => {
	const formOf = (fields: Readonly<Record<string, string>>) => {
		const form = new FormData();
		for (const [name, value] of Object.entries(fields)) form.set(name, value);
		return form;
	};

	test('closed days are left out of a week, and what is no stretch is passed on to be refused', () => {
		expect(weekIn(formOf({ 'week.mon': '7-19, soon', 'week.tue': 'closed', 'week.sun': '22:00-06:00' }))).toEqual({
			mon: ['07:00-19:00', 'soon'],
			sun: ['22:00-06:00']
		});
	});

	test('each kind is read with its treatment; undecided and nameless ones are left out', () => {
		const form = formOf({
			'kind.0': 'public',
			'treatment.0': 'closed',
			'kind.1': 'half-day',
			'treatment.1': 'own',
			'stretches.1': '8-12',
			'kind.2': 'shutdown',
			'treatment.2': '',
			'kind.3': ' ',
			'treatment.3': 'normal',
			'kind.4': '__proto__',
			'treatment.4': 'normal'
		});
		const read = treatmentsIn(form);
		expect(Object.entries(read)).toEqual([
			['public', 'closed'],
			['half-day', ['08:00-12:00']],
			['__proto__', 'normal']
		]);
	});

	test('hours of its own without a stretch stay a list', () => {
		expect(treatmentsIn(formOf({ 'kind.0': 'public', 'treatment.0': 'own', 'stretches.0': '' }))).toEqual({
			public: []
		});
	});
});

import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { done, site } from '../../../../tests/support/edits';
import { localDate } from '../calendar/local-date';
import { exportsByName } from '../exports';
import { erasureCertificates } from './certificate';
import { monthFigures } from './month-figures';
import { projectRetention } from './projection';

const on = localDate('2027-06-30');

/** 1001 leaves on 28 May; an order is opened on 1 June and done at c1 on 3 June, at s1 on 9 June; 1003 has a template too. */
function worked() {
	const leaving = done('put-entry', {
		collection: 'people',
		at: '1001',
		entry: { id: '1001', name: 'Ada Quill', leavesOn: '2027-05-28' }
	});
	const other = done(
		'put-entry',
		{ collection: 'templates', entry: { person: '1003', enrolledOn: '2027-01-12', storedOn: ['c1'] } },
		leaving
	);
	const opened = done('open-erasure', { people: ['1001'], on: '2027-06-01', by: 'Nora' }, other);
	const order = { orders: ['E-1'], by: 'Otto', evidence: 'report 118' };
	const half = done('confirm-erasure', { ...order, places: ['c1'], on: '2027-06-03' }, opened);
	return { half, whole: done('confirm-erasure', { ...order, places: ['s1'], on: '2027-06-09' }, half) };
}

test('a certificate says what went where and when, by whom and how it is known, and nothing of anybody else', () => {
	const { half, whole } = worked();
	expect(erasureCertificates(half.rollout, '1001', on)[0]?.erasedOn).toBeNull();
	const [certificate, ...more] = erasureCertificates(whole.rollout, '1001', on);
	expect(more).toEqual([]);
	expect(certificate).toMatchObject({
		name: 'Ada Quill',
		enrolledOn: '2027-01-11',
		erasedOn: '2027-06-09',
		order: 'E-1',
		openedOn: '2027-06-01',
		retention: { rule: 'us-il/purpose-ended', eraseBy: '2027-05-28', state: 'erased' },
		places: [
			{ place: 'c1', kind: 'controller', on: '2027-06-03', by: 'Otto', evidence: 'report 118', readers: ['r1'] },
			{ place: 's1', kind: 'station', on: '2027-06-09', by: 'Otto', evidence: 'report 118', readers: [] }
		]
	});
	expect(JSON.stringify(certificate)).not.toMatch(/1002|1003|Ben|Cleo/);
	expect(erasureCertificates(whole.rollout, '1002', on)).toEqual([]);
});

test('the figures of a month, counted by hand', () => {
	const { whole } = worked();
	// The erase-by date of 1001 lies in May; that of 1003 three years after the enrollment.
	expect(monthFigures(whole.rollout, on)).toEqual({
		month: '2027-06',
		until: '2027-06-30',
		erased: 1,
		fellDue: 0,
		overdue: 0,
		opened: 1,
		medianDays: 8,
		places: [
			{ place: 'c1', name: 'c1', erased: 1, left: 0, medianDays: 2 },
			{ place: 's1', name: 's1', erased: 1, left: 0, medianDays: 8 }
		]
	});
	expect(monthFigures(whole.rollout, localDate('2027-06-05'))).toMatchObject({
		erased: 0,
		overdue: 1,
		medianDays: null
	});
	expect(monthFigures(whole.rollout, localDate('2027-05-31'))).toMatchObject({
		erased: 0,
		fellDue: 1,
		overdue: 1,
		opened: 0
	});
});

test('a projection reckons what would be, and leaves the document as it is', () => {
	const { rollout } = site();
	const before = JSON.stringify(rollout);
	const now = { rule: 'us-il/three-years', eraseBy: '2030-01-11' };
	const day = localDate('2027-06-01');
	// 740 ILCS 14/15(a): when the purpose has been satisfied.
	expect(projectRetention(rollout, '1001', day, { leavesOn: localDate('2027-07-15') })).toMatchObject([
		{ now, then: { rule: 'us-il/purpose-ended', trigger: 'left', eraseBy: '2027-07-15', state: 'kept' } }
	]);
	expect(projectRetention(rollout, '1001', day, { withdrawsOn: localDate('2027-08-02') })).toMatchObject([
		{ now, then: { rule: 'us-il/purpose-ended', trigger: 'withdrew', eraseBy: '2027-08-02', state: 'due' } }
	]);
	// V-RET-01b: 29 February and three years is 28 February.
	expect(projectRetention(rollout, '1001', day, { lastUsedOn: localDate('2028-02-29') })).toMatchObject([
		{ now, then: { eraseBy: '2031-02-28' } }
	]);
	expect(projectRetention(rollout, '1003', day, {})).toEqual([]);
	expect(JSON.stringify(rollout)).toBe(before);
});

test('the calendar of the erase-by dates is read by another program, with its reminders', () => {
	const leaving = done('put-entry', {
		collection: 'people',
		at: '1001',
		entry: { id: '1001', name: 'Ada Quill', leavesOn: '2027-07-04' }
	});
	const [file] =
		exportsByName.get('erase-by-calendar')?.files({
			document: leaving.document,
			rollout: leaving.rollout,
			madeAt: Date.UTC(2027, 5, 15),
			today: localDate('2027-06-15')
		}) ?? [];
	const calendar = new ICAL.Component(ICAL.parse(String(file?.content())) as string);
	const [event, ...more] = calendar.getAllSubcomponents('vevent');
	expect(more).toEqual([]);
	expect(event?.getFirstPropertyValue('dtstart')?.toString()).toBe('2027-07-04');
	expect(event?.getFirstPropertyValue('summary')).toBe('Erase 1 template');
	// 4 July 2027 is a Sunday; 19 days before it the reminder of 30 days is past.
	const told = String(event?.getFirstPropertyValue('description'));
	expect(told).toContain('Last working day before or on it: 2027-07-02');
	expect(told).toContain('1001: us-il/purpose-ended');
	expect(told).not.toContain('Ada');
	const alarms = event?.getAllSubcomponents('valarm').map((alarm) => String(alarm.getFirstPropertyValue('trigger')));
	expect(alarms).toEqual(['-P14D', '-P7D']);
});

import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import type { RolloutDocument } from '../document/schema';
import { standingByPerson } from './standing';

const day = (text: string) => text as never;

function standingOf(privacy: RolloutDocument['privacy']): string | undefined {
	return standingByPerson(rolloutOf({ people: [{ id: 'a' }], privacy })).get('a');
}

test('the latest consent entry decides, of one date the one further down the list', () => {
	const entry = (decision: 'given' | 'declined' | 'withdrawn', on: string) => ({
		person: 'a',
		notice: 'n',
		decision,
		on: day(on)
	});
	expect(standingOf({ consents: [entry('declined', '2027-01-02'), entry('given', '2027-01-01')] })).toBe('declined');
	expect(standingOf({ consents: [entry('withdrawn', '2027-01-02'), entry('given', '2027-01-02')] })).toBe('to-book');
	expect(standingOf({})).toBe('to-book');
});

test('somebody with a place not erased is done; an erasure dated before the enrollment empties nothing', () => {
	const template = (on: string) => ({
		templates: [
			{
				person: 'a',
				enrolledOn: day('2027-01-11'),
				storedOn: ['c1'],
				erasures: [{ from: 'c1', on: day(on) }]
			}
		]
	});
	expect(standingOf(template('2027-01-10'))).toBe('enrolled');
	expect(standingOf(template('2027-01-11'))).toBe('to-book');
});

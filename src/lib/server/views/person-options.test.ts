import { expect, test } from 'vitest';
import { rolloutOf } from '../../../../tests/support/rollout-of';
import { personOptions } from './person-options';

test('people are offered by name, accents where they belong, and who has no name by id', () => {
	const { people } = rolloutOf({
		people: [
			{ id: '9', name: 'Åsa Orme' },
			{ id: '10' },
			{ id: '7', name: 'Zoë Ember' },
			{ id: '2' },
			{ id: '8', name: 'Bo Ash' }
		]
	});
	expect(personOptions(people).map(({ label }) => label)).toEqual([
		'2',
		'10',
		'Åsa Orme (9)',
		'Bo Ash (8)',
		'Zoë Ember (7)'
	]);
});

import { expect, test } from 'vitest';
import { chanceText, onScale } from './chance-text';

test('chances are told as people grasp them', () => {
	expect([0.632, 0.01, 0.0099, 1e-6, 0].map(chanceText)).toEqual([
		'63.2 %',
		'1.0 %',
		'1 in 101',
		'1 in 1,000,000',
		'none'
	]);
});

test('a scale of powers of ten ends at its ends', () => {
	expect([1, 1e-4, 1e-8, 1e-12, 0].map((chance) => onScale(chance, 8))).toEqual([1, 0.5, 0, 0, 0]);
});

import { describe, expect, test } from 'vitest';
import { collections } from '$lib/core/document/collections';
import { documentReference } from './document-reference';

const sections = documentReference();
const keyAt = (path: string, key: string) =>
	sections.find((one) => one.path === path)?.keys.find((one) => one.key === key);

describe('the reference of the document is made from its schema', () => {
	test('every list of the document has its section', () => {
		const paths = sections.map((section) => section.path);
		for (const { path } of Object.values(collections)) expect(paths).toContain(`${path}[]`);
		expect(new Set(paths).size).toBe(paths.length);
	});

	test('every section that a key leads to exists', () => {
		const paths = new Set(sections.map((section) => section.path));
		const led = sections.flatMap((section) => section.keys.flatMap((key) => key.section ?? []));
		expect(led.length).toBeGreaterThan(20);
		expect(led.filter((path) => !paths.has(path))).toEqual([]);
	});

	test('required keys are those of the contract, and have no fallback', () => {
		const required = (path: string) => sections.find((one) => one.path === path)?.keys.filter((one) => one.isRequired);
		expect(required('$')?.map((one) => one.key)).toEqual(['format', 'version', 'site', 'horizon']);
		expect(required('site')?.map((one) => one.key)).toEqual(['name', 'timeZone']);
		expect(required('shiftPatterns[]')?.map((one) => one.key)).toEqual(['id', 'anchor', 'cycleDays']);
		expect(sections.flatMap((one) => one.keys).filter((one) => one.isRequired && one.fallback !== null)).toEqual([]);
	});

	test('what a missing key counts as comes from the schema', () => {
		expect(keyAt('doors[]', 'exit')?.fallback).toBe('"free"');
		expect(keyAt('enrollment', 'gridMinutes')?.fallback).toBe('5');
		expect(keyAt('people[]', 'leavesOn')?.fallback).toBe('null');
		expect(keyAt('$', 'people')?.fallback).toBe('[]');
		expect(keyAt('$', 'privacy')?.fallback).toBe('');
	});

	test('types in words, ids told by what they name', () => {
		expect(keyAt('doors[]', 'from')?.takes).toBe('id of an area');
		expect(keyAt('doorGroups[]', 'doors')?.takes).toBe('list of ids of doors');
		expect(keyAt('schedules[].week', 'mon')?.takes).toBe('list of stretches');
		expect(keyAt('schedules[]', 'from')?.takes).toBe('date');
		expect(keyAt('enrollment.stations[]', 'lanes')?.takes).toBe('whole number, 1 or more');
		expect(keyAt('enrollment.assumptions', 'noShow')?.takes).toBe('number, 0 to 1');
		expect(keyAt('privacy.consents[]', 'decision')?.takes).toBe('"given", "declined", "withdrawn"');
		expect(keyAt('schedules[]', 'holidays')?.takes).toBe(
			'object from words to "normal", or "closed", or list of stretches'
		);
	});
});

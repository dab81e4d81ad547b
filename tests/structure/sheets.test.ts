import { describe, expect, test } from 'vitest';
import { coverSheets } from '$lib/components/sheet/cover-sheets';
import { findSheet, sheetAt, sheetHref, sheets, stages } from '$lib/components/sheet/sheets';

const pages = Object.keys(import.meta.glob('/src/routes/**/+page.svelte'));

describe('the sheet index', () => {
	test('every sheet of a rollout is a page, and every page of a rollout lies on a sheet', () => {
		for (const { path } of sheets) expect(pages).toContain(`/src/routes/r/[rollout]/${path}/+page.svelte`);
		const first = pages.flatMap((page) => /^\/src\/routes\/r\/\[rollout\]\/([^/]+)\//.exec(page)?.[1] ?? []);
		expect([...new Set(first)].sort()).toEqual(sheets.map((sheet) => sheet.path as string).sort());
	});

	test('every cover sheet is a page', () => {
		for (const { href } of coverSheets) expect(pages).toContain(`/src/routes${href === '/' ? '' : href}/+page.svelte`);
	});

	test('codes, paths and figures are unique, and a code begins with the letter of its stage', () => {
		for (const key of ['code', 'path', 'figure'] as const)
			expect(new Set(sheets.map((sheet) => sheet[key])).size).toBe(sheets.length);
		// Access, enrollment and the like stand in the order of the job.
		const order = sheets.map((sheet) => stages.indexOf(sheet.stage));
		expect(order).toEqual([...order].sort((a, b) => a - b));
		const letters = { Site: 'S', People: 'P', Access: 'A', Enrollment: 'E', Records: 'R', 'Go-live': 'G' } as const;
		for (const { code, stage } of sheets) expect(code.startsWith(`${letters[stage]}-`)).toBe(true);
	});

	test('an address below a sheet lies on it', () => {
		expect(sheetAt(`${sheetHref('a/b', 'schedules')}/night`)?.code).toBe('A-1');
		expect(sheetHref('a/b', 'schedules')).toBe('/r/a%2Fb/schedules');
		expect([sheetAt('/help/findings'), sheetAt('/'), findSheet('Z-9')]).toEqual([undefined, undefined, undefined]);
	});
});

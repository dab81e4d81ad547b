import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { licenseTexts, shippedPackages } from './licenses';

const manifest = JSON.parse(readFileSync(new URL('../../../../package.json', import.meta.url), 'utf8')) as {
	dependencies: Record<string, string>;
};

test('every package that ships is named with its version and license', () => {
	const versions = new Map(shippedPackages.map((one) => [one.name, one.version]));
	for (const [name, version] of Object.entries(manifest.dependencies))
		expect([name, versions.get(name)]).toEqual([name, version]);
	expect(shippedPackages.filter((one) => !one.license)).toEqual([]);
});

test('attribution that is asked for stands there in full', () => {
	const [holidays, ...faces] = licenseTexts.map((one) => one.text);
	// The license of the data asks for the list of pages it was taken from.
	expect(holidays).toContain('CC BY-SA 3.0 Attributions');
	expect(holidays?.match(/https:\/\/[a-z]+\.wikipedia\.org\//g)?.length).toBeGreaterThan(100);
	for (const text of faces) expect(text).toContain('SIL Open Font License, Version 1.1');
});

/** A package that ships with the app. */
export interface ShippedPackage {
	readonly name: string;
	readonly version: string;
	readonly license: string;
	readonly description: string;
}

const manifests = import.meta.glob<ShippedPackage>(
	[
		'/node_modules/@fontsource-variable/atkinson-hyperlegible-next/package.json',
		'/node_modules/@fontsource/barlow-condensed/package.json',
		'/node_modules/@sveltejs/adapter-node/package.json',
		'/node_modules/@sveltejs/kit/package.json',
		'/node_modules/better-sqlite3/package.json',
		'/node_modules/chardet/package.json',
		'/node_modules/date-holidays/package.json',
		'/node_modules/date-holidays-parser/package.json',
		'/node_modules/fastest-levenshtein/package.json',
		'/node_modules/fflate/package.json',
		'/node_modules/iconv-lite/package.json',
		'/node_modules/ical-generator/package.json',
		'/node_modules/ical.js/package.json',
		'/node_modules/papaparse/package.json',
		'/node_modules/pure-rand/package.json',
		'/node_modules/saxen/package.json',
		'/node_modules/svelte/package.json',
		'/node_modules/write-excel-file/package.json',
		'/node_modules/zod/package.json'
	],
	{ eager: true, import: 'default' }
);

/** What the app is made of besides its own code, by name: from the packages' own manifests. */
export const shippedPackages: readonly ShippedPackage[] = Object.values(manifests)
	.map(({ name, version, license, description }) => ({ name, version, license, description }))
	.sort((a, b) => (a.name < b.name ? -1 : 1));

const texts = import.meta.glob<string>(
	[
		'/node_modules/date-holidays/LICENSE',
		'/node_modules/@fontsource/barlow-condensed/LICENSE',
		'/node_modules/@fontsource-variable/atkinson-hyperlegible-next/LICENSE'
	],
	{ eager: true, query: '?raw', import: 'default' }
);

const titles: Readonly<Record<string, string>> = {
	'/node_modules/date-holidays/LICENSE': 'date-holidays: code, data and attributions',
	'/node_modules/@fontsource-variable/atkinson-hyperlegible-next/LICENSE':
		'Atkinson Hyperlegible Next: SIL Open Font License 1.1',
	'/node_modules/@fontsource/barlow-condensed/LICENSE': 'Barlow Condensed: SIL Open Font License 1.1'
};

/** License texts that must be shown in full, because attribution is asked for. */
export const licenseTexts = Object.entries(titles).map(([file, name]) => ({ name, text: texts[file] ?? '' }));

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

/**
 * Measures what the look promises: every color that is written with, on every ground, in both sets.
 * Source: WCAG 2.2, success criterion 1.4.3 (4.5:1 for text) and 1.4.11 (3:1 for what marks a control); relative luminance
 * and contrast ratio as defined there.
 */

const tokens = readFileSync(new URL('../../src/lib/styles/tokens.css', import.meta.url), 'utf8');

interface Token {
	readonly name: string;
	readonly light: string;
	readonly blueprint: string;
}

const colors: readonly Token[] = [
	...tokens.matchAll(/--([\w-]+):\s*light-dark\((#[0-9a-f]{6}),\s*(#[0-9a-f]{6})\)/g)
].map(([, name = '', light = '', blueprint = '']) => ({ name, light, blueprint }));

const grounds = ['paper', 'sheet', 'highlight'];
/** Divides and never carries meaning, so it is no pair of text and ground; whoever writes with it fails below. */
const divider = 'hairline';
const texts = colors.map((color) => color.name).filter((name) => !grounds.includes(name) && name !== divider);
/** What is written light on dark: on buttons, pressed switches and marks. */
const reversed = texts.map((ground) => ['sheet', ground] as const);

function colorOf(name: string, set: 'light' | 'blueprint'): string {
	const token = colors.find((color) => color.name === name);
	if (!token) throw new Error(`tokens.css has no color --${name}`);
	return token[set];
}

function luminance(hex: string): number {
	const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
		const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
		return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
	});
	return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
	const [x, y] = [luminance(a), luminance(b)];
	return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

test('the measure is that of the guidelines: black on white is 21:1, #767676 on white just passes', () => {
	expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
	expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
	expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
});

test('both sets have every color', () => {
	expect(colors.map((color) => color.name).sort()).toEqual(
		['action', 'fails', 'graphite', 'hairline', 'highlight', 'holds', 'ink', 'paper', 'sheet', 'watch'].sort()
	);
});

describe.each(['light', 'blueprint'] as const)('%s', (set) => {
	test.each(texts.flatMap((text) => grounds.map((ground) => [text, ground] as const)))('%s on %s', (text, ground) => {
		expect(contrast(colorOf(text, set), colorOf(ground, set))).toBeGreaterThanOrEqual(4.5);
	});

	test.each(reversed)('%s on %s', (text, ground) => {
		expect(contrast(colorOf(text, set), colorOf(ground, set))).toBeGreaterThanOrEqual(4.5);
	});
});

describe('components use tokens only', () => {
	const sources = import.meta.glob<string>(
		['/src/**/*.svelte', '/src/lib/styles/*.css', '!/src/lib/styles/tokens.css'],
		{
			eager: true,
			query: '?raw',
			import: 'default'
		}
	);
	const styles = Object.entries(sources).map(([file, text]) => {
		const css = file.endsWith('.css')
			? text
			: [...text.matchAll(/<style>([\s\S]*?)<\/style>/g)].map((match) => match[1]).join('');
		return [file, css.replace(/\/\*[\s\S]*?\*\//g, '')] as const;
	});

	test('there are components to look at', () => {
		expect(styles.filter(([, css]) => css.includes('var(--')).length).toBeGreaterThan(30);
	});

	test('no color is written down outside tokens.css', () => {
		const found = styles.flatMap(([file, css]) =>
			[...css.matchAll(/:[^;{}]*?(#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|oklch|lab|color-mix)\([^)]*\))/gi)]
				// A mask needs some opaque color; it is never seen.
				.filter(([rule]) => !/transparent/.test(rule))
				.map(([, color]) => `${file}: ${color}`)
		);
		expect(found).toEqual([]);
	});

	test('nothing is written in the color of dividers', () => {
		const found = styles.filter(([, css]) => /(?:^|[\s;{])color:\s*var\(--hairline\)/.test(css)).map(([file]) => file);
		expect(found).toEqual([]);
	});
});

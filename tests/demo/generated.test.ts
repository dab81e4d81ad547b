import { Buffer } from 'node:buffer';
import { describe, expect, it } from 'vitest';
import { demoFiles } from '../../src/tools/make-demo-data/files.mjs';
import { demoBytes } from './support/demo-files';

describe('the demo data', () => {
	it.each([...demoFiles()])('%s is what its generator makes', (name, bytes) => {
		expect(Buffer.compare(demoBytes(name), bytes)).toBe(0);
	});

	it('hold no letter of a name that HR’s encoding has not, and no address outside of the example domain', () => {
		const text = new TextDecoder().decode(demoBytes('larkfen-cold-store.json'));
		const addresses = [...text.matchAll(/[\w.-]+@([\w.-]+)/g)].map((match) => match[1] ?? '');
		expect(addresses.length).toBeGreaterThan(100);
		// RFC 2606, section 2: .example is reserved for this.
		expect(addresses.filter((domain) => !domain.endsWith('larkfen.example'))).toEqual([]);
	});
});

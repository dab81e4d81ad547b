import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arbitraryDocument } from '../../../../tests/support/arbitrary-rollout';
import { smallSite } from '../../../../tests/support/small-site';
import { writeDocument } from './write';

test('each entry of a list stands on a line of its own', () => {
	const lines = writeDocument(smallSite()).split('\n');
	expect(lines).toContain('\t\t{"id":"street","name":"Street","outside":true},');
	expect(lines).toContain('\t"horizon": {"from":"2027-01-04","until":"2027-12-31"},');
	expect(lines).toContain('\t\t\t{"person":"1001","notice":"n1","decision":"given","on":"2027-01-05"}');
	expect(lines.at(-1)).toBe('');
});

test('what is read back is the same JSON value, for any valid document', () => {
	fc.assert(
		fc.property(arbitraryDocument(), (document) => {
			expect(JSON.stringify(JSON.parse(writeDocument(document)))).toBe(JSON.stringify(document));
		}),
		{ numRuns: 100 }
	);
});

import { describe, expect, it } from 'vitest';
import { readRollout } from '$lib/core/answers/support/read-rollout';
import { demoBytes, demoRollout } from './support/demo-files';
import { quoted, tableRows } from './support/readme';

const documents = tableRows('Damaged files', 'Document').map(([file, , paths]) => ({
	file: quoted(file).join(),
	paths: quoted(paths)
}));

describe('a damaged document', () => {
	it.each(documents)('$file is refused at every place that the README tells, and no other', ({ file, paths }) => {
		const read = readRollout(demoBytes(`damaged/${file}`));
		const told = read.ok ? [] : read.faults.map(({ path }) => path);
		expect([...told].sort()).toEqual([...paths].sort());
	});

	it('differs from a whole one, which is read', () => {
		expect(demoRollout(demoBytes('tutorial-kiln-yard.json')).people).toHaveLength(12);
		expect(documents).toHaveLength(8);
	});
});

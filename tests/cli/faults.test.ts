import { describe, expect, it } from 'vitest';
import type { Fault } from '../../src/lib/core/kernel/fault';
import { smallSite } from '../support/small-site';
import { type World, type } from '../support/terminal';

const site = smallSite();
const files: Readonly<Record<string, unknown>> = { 'site.json': site, folder: null };

/** The faults of a refused call, from its JSON; checks that it says the same to people, on standard error alone. */
async function faultsOf(args: readonly string[], world: World = { files }): Promise<(Fault & { file?: string })[]> {
	const { status, out, err } = await type([...args, '--json'], world);
	expect([status, err]).toEqual([2, '']);
	const told = JSON.parse(out) as { faults: (Fault & { file?: string })[] };
	expect(Object.keys(told)).toEqual(['faults']);
	expect(out.trimEnd()).not.toContain('\n');
	const forPeople = await type(args, world);
	expect([forPeople.status, forPeople.out]).toEqual([2, '']);
	for (const { expected } of told.faults) expect(forPeople.err).toContain(expected);
	return told.faults;
}

function brief(faults: readonly Fault[]): unknown[] {
	return faults.map(({ path, nearest }) => (nearest === undefined ? path : [path, nearest]));
}

describe('a call that is at fault', () => {
	it.each<[string, string[], unknown[]]>([
		['a command that is mistyped', ['chekc', 'site.json'], [['$.command', 'check']]],
		['an option for a command', ['--verbose'], ['$.command']],
		['no file', ['check'], ['$.file']],
		['a file that does not exist', ['check', 'none.json'], ['$.file']],
		['a folder', ['check', 'folder'], ['$.file']],
		['two files', ['check', 'site.json', 'site.json'], ['$.file']],
		['a mistyped option', ['check', 'site.json', '--jsn'], [['$.jsn', '--json']]],
		['a flag with a value', ['plan', 'site.json', '--progress=yes'], ['$.progress']],
		['an option that is missing', ['retention', 'site.json'], ['$.on']],
		['an option without its value', ['retention', 'site.json', '--on'], ['$.on']],
		['an option twice', ['retention', 'site.json', '--on', '2027-01-01', '--on', '2027-01-02'], ['$.on']],
		['a date that does not exist', ['retention', 'site.json', '--on', '2027-02-30'], ['$.on']],
		['a date in another form', ['retention', 'site.json', '--on', '1/2/2027'], ['$.on']],
		['a number that is none', ['plan', 'site.json', '--seconds', 'ten'], ['$.seconds']],
		['a number below zero', ['plan', 'site.json', '--seconds', '-3'], ['$.seconds']],
		['a number that is not whole', ['plan', 'site.json', '--seed', '1.5'], ['$.seed']],
		['no number at all', ['plan', 'site.json', '--seconds='], ['$.seconds']],
		[
			'a person and a door that are not there',
			['explain', 'site.json', '--person', '101', '--door', 'mian', '--at', '2027-01-04T08:00'],
			[
				['$.person', '1001'],
				['$.door', 'main']
			]
		],
		[
			'a range that ends before it begins',
			['access', 'site.json', '--person', '1001', '--from', '2027-01-05', '--until', '2027-01-04'],
			['$.until']
		],
		['standard input twice', ['compare', '-', '-'], ['$.with']],
		['one file where two are needed', ['compare', 'site.json'], ['$.with']]
	])('%s', async (_what, args, expected) => {
		expect(brief(await faultsOf(args))).toEqual(expected);
	});

	it('is told everything at once', async () => {
		const args = [
			'explain',
			'site.json',
			'more',
			'--persn',
			'x',
			'--door',
			'mian',
			'--at',
			'2027-13-01T08:00',
			'--at',
			'y'
		];
		expect(brief(await faultsOf(args))).toEqual([
			['$.persn', '--person'],
			'$.at',
			'$.file',
			'$.person',
			['$.door', 'main']
		]);
	});

	it('finds a person by the name, too, where an id is wanted', async () => {
		const faults = await faultsOf([
			'access',
			'site.json',
			'--person',
			'ben marsh',
			'--from',
			'2027-01-04',
			'--until',
			'2027-01-04'
		]);
		expect(brief(faults)).toEqual([['$.person', '1002']]);
	});

	it('says --person to people where JSON says $.person, and leads to help', async () => {
		const { err } = await type(['access', 'site.json', '--person', 'x'], { files });
		expect(err).toContain('--person: found "x"');
		expect(err).toContain('--from: found nothing');
		expect(err).toContain('access --help');
	});

	it('shows the commands where there is no command at all', async () => {
		const { status, out, err } = await type([]);
		expect([status, out]).toEqual([2, '']);
		expect(err).toContain('check FILE');
	});

	it('an id may begin with hyphens, after the equals sign with two', async () => {
		const odd = {
			files: {
				a: smallSite({
					people: [{ id: '--x' }, { id: '-y' }],
					absences: [],
					assignments: [],
					privacy: null,
					enrollment: null
				})
			}
		};
		const range = ['--from', '2027-01-04', '--until', '2027-01-04', '--json'];
		expect((await type(['access', 'a', '--person=--x', ...range], odd)).status).toBe(0);
		expect((await type(['access', 'a', '--person', '-y', ...range], odd)).status).toBe(0);
		expect((await type(['access', 'a', '--person', '--x', ...range], odd)).status).toBe(2);
	});

	it('a file may be named like an option, after two hyphens', async () => {
		const odd = { files: { '--json': site } };
		expect((await type(['check', '--', '--json'], odd)).out).toContain('To mend');
	});
});

describe('a document that is at fault', () => {
	const text = JSON.stringify(site);

	it.each<[string, unknown, string]>([
		['empty', '', 'the file is empty'],
		['cut short', text.slice(0, -40), 'breaks off'],
		['no JSON', 'id,name\n1,Ada', 'stops being JSON at line 1, column 1'],
		['in UTF-16', Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le')), 'UTF-8'],
		['in a legacy encoding', Uint8Array.from(Buffer.from(text.replace('Ada', 'Ad\u00e9'), 'latin1')), 'UTF-8'],
		['a list', '[]', 'an object']
	])('%s', async (_what, content, expected) => {
		const faults = await faultsOf(['check', 'a'], { files: { a: content } });
		expect(faults.map(({ path }) => path)).toEqual(['$']);
		expect(faults[0]?.expected).toContain(expected);
	});

	it('unknown keys, dangling ids, repeated ids and keys: every fault in one go', async () => {
		const broken = text
			.replace('"timeZone"', '"timezone"')
			.replace('"door":"main"', '"door":"mian"')
			.replace('"id":"1002"', '"id":"1001"')
			.replace('"version":1', '"version":1,"version":1');
		const faults = await faultsOf(['check', 'a'], { files: { a: broken } });
		expect(brief(faults)).toEqual(
			expect.arrayContaining([
				'$.version',
				['$.site.timezone', 'timeZone'],
				'$.site.timeZone',
				['$.readers[0].door', 'main'],
				'$.people[1].id'
			])
		);
	});

	it('with faults of the call beside its own', async () => {
		const faults = await faultsOf(['retention', 'a', '--on', 'soon', '--in', 'x'], { files: { a: '{}' } });
		expect(faults.map(({ path }) => path)).toEqual(
			expect.arrayContaining(['$.in', '$.on', '$.format', '$.site', '$.horizon'])
		);
	});

	it('where two are compared, each fault names its file', async () => {
		const faults = await faultsOf(['compare', 'a', 'b'], { files: { a: '', b: '{' } });
		expect(faults.map(({ file }) => file)).toEqual(['a', 'b']);
	});

	it('as standard input', async () => {
		const { err } = await type(['check', '-'], { stdin: '' });
		expect(err).toContain('standard input');
	});

	it('with more faults than anybody reads: people see the first, JSON has all', async () => {
		const people = Array.from({ length: 200 }, (_, index) => ({ id: `p${index}`, wave: 'nowhere' }));
		const world = { files: { a: { ...site, people, absences: [], enrollment: null, privacy: null, assignments: [] } } };
		const { out } = await type(['check', 'a', '--json'], world);
		expect((JSON.parse(out) as { faults: unknown[] }).faults).toHaveLength(200);
		const { err } = await type(['check', 'a'], world);
		expect(err).toContain('and 160 more');
	});
});

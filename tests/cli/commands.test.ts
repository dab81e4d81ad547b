import { describe, expect, it } from 'vitest';
import { jsonOf } from '../../src/lib/core/answers/define-answer';
import { allAnswers, answerNames, findAnswer } from '../../src/lib/core/answers';
import { readRollout } from '../../src/lib/core/answers/support/read-rollout';
import { optionsOf } from '../../src/lib/core/answers/support/options';
import { importRoster } from '../../src/lib/core/roster/import-roster';
import { unwatched } from '../../src/lib/core/kernel/work';
import { everyDay, oneDoor } from '../support/one-door';
import { smallSite } from '../support/small-site';
import { type } from '../support/terminal';

const site = smallSite();
const later = smallSite({ assignments: [{ id: 'a1', who: { people: ['1001'] }, accessProfile: 'staff' }] });
const files = { 'site.json': site, 'later.json': later };

/** A change that is tried, as JSON. */
const moreLanes = JSON.stringify([
	{
		edit: 'put-entry',
		params: {
			collection: 'stations',
			at: 's1',
			entry: { id: 's1', area: 'lobby', lanes: 2, open: [{ date: '2027-01-11', at: '08:00-12:00' }] }
		}
	}
]);

/** A call of each question; the question itself is asked with the same parameters. */
const calls: Readonly<
	Record<string, { readonly args: readonly string[]; readonly params: Readonly<Record<string, unknown>> }>
> = {
	check: { args: [], params: {} },
	access: {
		args: ['--person', '1002', '--from', '2027-01-04', '--until=2027-01-17'],
		params: { person: '1002', from: '2027-01-04', until: '2027-01-17' }
	},
	explain: {
		args: ['--person', '1002', '--door', 'main', '--at', '2027-01-04T08:00'],
		params: { person: '1002', door: 'main', at: '2027-01-04T08:00' }
	},
	who: {
		args: ['--door', 'main', '--at', '2027-01-04T08:00', '--department', 'Office'],
		params: { door: 'main', at: '2027-01-04T08:00', department: 'Office' }
	},
	mend: {
		args: ['--code', 'shift-not-covered', '--person', '1001', '--limit', '3'],
		params: { code: 'shift-not-covered', person: '1001', limit: 3 }
	},
	'compare-groups': { args: ['later.json'], params: { with: rolloutOf(later) } },
	compare: { args: ['later.json'], params: { with: rolloutOf(later) } },
	plan: { args: ['--seconds', '0', '--seed', '3'], params: { seconds: 0, seed: 3 } },
	forecast: { args: ['--runs', '20', '--seed', '3'], params: { runs: 20, seed: 3 } },
	outlook: { args: ['--runs', '20', '--seed', '3'], params: { runs: 20, seed: 3, confidence: 0.9 } },
	'what-if': {
		args: ['--edits', moreLanes, '--seconds', '1', '--seed', '3'],
		params: { edits: moreLanes, seconds: 1, seed: 3 }
	},
	replan: { args: ['--from', '2027-01-11T08:30'], params: { from: '2027-01-11T08:30' } },
	'walk-in': {
		args: ['--open', '08:00-10:00', '--arrivals', '6,2'],
		params: { open: '08:00-10:00', arrivals: '6,2', days: 'all', within: 10, share: 0.9 }
	},
	'station-time': { args: ['--confidence', '0.95'], params: { confidence: 0.95 } },
	'matching-risk': {
		args: ['--digits', '6'],
		params: { rate: 0.0001, fingers: 2, attempts: 5, digits: 6, goal: 0.001 }
	},
	'person-record': {
		args: ['--person', '1002', '--on', '2027-06-01'],
		params: { person: '1002', on: '2027-06-01' }
	},
	retention: { args: ['--on', '2027-06-01'], params: { on: '2027-06-01' } }
};

function rolloutOf(document: unknown) {
	const read = readRollout(JSON.stringify(document));
	if (!read.ok) throw new Error(JSON.stringify(read.faults));
	return read.value.rollout;
}

async function answerOf(name: string) {
	const answer = await findAnswer(name);
	if (!answer) throw new Error(`there is no question ${name}`);
	return answer;
}

describe('each question', () => {
	it.each(answerNames)('%s has a call here', (name) => {
		expect(Object.keys(calls)).toContain(name);
	});

	it.each(Object.entries(calls))(
		'%s answers as the core does, as JSON and for people',
		async (name, { args, params }) => {
			const answer = await answerOf(name);
			const rollout = rolloutOf(site);
			const result = await answer.run(rollout, params, unwatched);
			if (!result.ok) throw new Error(JSON.stringify(result.faults));
			const status = answer.isBad(result.value) ? 1 : 0;
			expect(await type([name, 'site.json', ...args, '--json'], { files })).toEqual({
				status,
				out: `${[...jsonOf(answer, result.value)].join('')}\n`,
				err: ''
			});
			expect(await type([name, 'site.json', ...args], { files })).toEqual({
				status,
				out: `${answer.text(result.value, rollout, params)}\n`,
				err: ''
			});
		}
	);

	it('reads standard input for -', async () => {
		const fromFile = await type(['check', 'site.json', '--json'], { files });
		expect(await type(['check', '-', '--json'], { stdin: site })).toEqual(fromFile);
		expect(await type(['check', '--json', '-'], { stdin: site })).toEqual(fromFile);
		const compared = await type(['compare', 'site.json', '-', '--json'], { files, stdin: later });
		expect(compared).toEqual(await type(['compare', 'site.json', 'later.json', '--json'], { files }));
		expect((JSON.parse(compared.out) as { changes: unknown[] }).changes.length).toBeGreaterThan(0);
	});

	it('skips a byte order mark', async () => {
		const marked = { 'site.json': `\ufeff${JSON.stringify(site)}` };
		expect(await type(['check', 'site.json', '--json'], { files: marked })).toEqual(
			await type(['check', 'site.json', '--json'], { files })
		);
	});
});

describe('exit status', () => {
	const place = { timeZone: 'America/Chicago', from: '2027-01-04', until: '2027-01-10' };
	const working = {
		people: [{ id: 'p', shiftPattern: 'daily', workAreas: ['hall'] }],
		shiftPatterns: [{ id: 'daily', anchor: '2027-01-04', cycleDays: 1, shifts: [{ day: 0, at: '08:00-12:00' }] }]
	};

	it('0 when nothing of severity error is found, 1 when something is', async () => {
		const open = oneDoor(place, { week: everyDay('00:00-24:00') }, working);
		const closed = oneDoor(place, { week: {} }, working);
		expect((await type(['check', 'a'], { files: { a: open } })).status).toBe(0);
		expect((await type(['check', 'a'], { files: { a: closed } })).status).toBe(1);
	});

	it('1 when a template is overdue, and not for what is wrong with consent', async () => {
		const privacy = {
			regimes: ['us-il'],
			templates: [{ person: 'p', enrolledOn: '2020-01-02', storedOn: ['safe'] }]
		};
		const world = { files: { a: { ...oneDoor(place, { week: {} }), privacy } } };
		expect((await type(['retention', 'a', '--on', '2020-02-01'], world)).status).toBe(0);
		expect((await type(['retention', 'a', '--on', '2027-02-01'], world)).status).toBe(1);
	});

	it('1 when somebody is left unbooked', async () => {
		const everybody = await type(['plan', 'site.json', '--seconds', '0', '--json'], { files });
		const { unbooked } = JSON.parse(everybody.out) as { unbooked: unknown[] };
		expect(everybody.status).toBe(unbooked.length > 0 ? 1 : 0);
		const closed = smallSite({
			enrollment: { captureClasses: [{ id: 'standard', minutes: 8 }], waves: [{ id: 'w1' }] },
			privacy: null
		});
		expect((await type(['plan', 'a'], { files: { a: closed } })).status).toBe(1);
	});
});

describe('help', () => {
	it('tells every command', async () => {
		for (const args of [['--help'], ['-h'], ['help']]) {
			const { status, out, err } = await type(args);
			expect([status, err]).toEqual([0, '']);
			for (const [name, { summary }] of await allAnswers()) {
				expect(out).toContain(`${name} FILE`);
				expect(out).toContain(summary);
			}
			expect(out).toContain('import-roster ROSTER');
			expect(out).toMatch(/^serve /m);
		}
	});

	it.each(answerNames)('%s tells every option with its description', async (name) => {
		const answer = await answerOf(name);
		const { status, out, err } = await type([name, '--help']);
		expect([status, err]).toEqual([0, '']);
		expect(await type(['help', name])).toEqual({ status, out, err });
		expect(out).toContain(answer.summary);
		for (const option of optionsOf(answer.params)) {
			expect(out).toContain(option.description);
			if (option.kind !== 'document') expect(out).toContain(`--${option.name}`);
		}
	});

	it('needs no file, and is asked for before anything else is told', async () => {
		expect((await type(['access', '--person', '--help'])).status).toBe(0);
		expect((await type(['import-roster', '--help'])).out).toContain('--into');
		expect((await type(['serve', '--help'])).out).toContain('PORT');
	});
});

describe('import-roster', () => {
	const roster =
		'ID;Name;Department;Hired\n1002;Ben Marsh;Packing;2026-02-01\n1004;Dov Pell;Office;31.02.2026\n;Nobody;Office;\n';
	const world = { files: { ...files, 'people.csv': roster, 'map.json': { columns: { Hired: null } } } };
	const bytes = new TextEncoder().encode(roster);

	it('answers as the core does, also with problems, with status 0', async () => {
		const result = importRoster(bytes);
		if (!result.ok) throw new Error(JSON.stringify(result.faults));
		expect(result.value.problems.length).toBeGreaterThan(0);
		expect(await type(['import-roster', 'people.csv', '--json'], world)).toEqual({
			status: 0,
			out: `${JSON.stringify(result.value)}\n`,
			err: ''
		});
		expect(await type(['import-roster', '-', '--json'], { stdin: roster })).toEqual(
			await type(['import-roster', 'people.csv', '--json'], world)
		);
	});

	it('compares with a document, and goes by a map', async () => {
		const result = importRoster(bytes, { map: { columns: { Hired: null } }, into: rolloutOf(site) });
		if (!result.ok) throw new Error(JSON.stringify(result.faults));
		const args = ['import-roster', 'people.csv', '--into', 'site.json', '--map', 'map.json'];
		expect((await type([...args, '--json'], world)).out).toBe(`${JSON.stringify(result.value)}\n`);
		const { out, status } = await type(args, world);
		expect(status).toBe(0);
		expect(out).toContain('joined: 1 (1004)');
		expect(out).toContain('1002: department "Office" to "Packing"');
		expect(out).toContain('row 4');
		expect(out).toMatch(/Hired\s+not used/);
	});

	it.each([
		[['import-roster'], ['$.roster']],
		[
			['import-roster', 'none.csv', '--map', 'none.json', '--into', 'none'],
			['$.roster', '$.map', '$.into']
		],
		[
			['import-roster', 'people.csv', 'more.csv', '--maps', 'x'],
			['$.maps', '$.roster']
		],
		[['import-roster', '-', '--into', '-'], ['$.roster']]
	])('%j is refused', async (args, paths) => {
		const { status, out, err } = await type([...args, '--json'], world);
		expect([status, err]).toEqual([2, '']);
		expect((JSON.parse(out) as { faults: { path: string }[] }).faults.map(({ path }) => path)).toEqual(paths);
	});

	it('tells the faults of each file with its name', async () => {
		const broken = { files: { ...world.files, 'bad.json': '{', 'empty.csv': '' } };
		const both = await type(
			['import-roster', 'people.csv', '--map', 'bad.json', '--into', 'people.csv', '--json'],
			broken
		);
		expect(both.status).toBe(2);
		const { faults } = JSON.parse(both.out) as { faults: { path: string; file: string }[] };
		expect(faults.map(({ file }) => file)).toEqual(['bad.json', 'people.csv']);
		const empty = await type(['import-roster', 'empty.csv'], broken);
		expect([empty.status, empty.out]).toEqual([2, '']);
		expect(empty.err).toContain('empty.csv');
	});
});

describe('a long question', () => {
	const news = [
		{ done: 1, total: 4, note: 'placing' },
		{ done: 1, total: 4, note: 'placing' },
		{ done: 4, total: 4, note: null }
	];
	const args = ['plan', 'site.json', '--seconds', '0', '--json'];

	it('tells its progress on standard error only where somebody watches or wants it', async () => {
		const silent = await type(args, { files, news });
		expect(silent.err).toBe('');
		const wanted = await type([...args, '--progress'], { files, news });
		expect(wanted.err).toBe('25 %  placing\n100 %\n');
		const watched = await type(args, { files, news, isWatched: true });
		// One line, written over and taken away at the end.
		expect(watched.err).toBe('\r\u001b[K25 %  placing\r\u001b[K100 %\r\u001b[K');
		expect([wanted.out, watched.out]).toEqual([silent.out, silent.out]);
		expect(() => JSON.parse(silent.out) as unknown).not.toThrow();
	});

	it('ends at Ctrl-C with the best that it has', async () => {
		const stopped = await type([...args, '--progress'], { files, isInterrupted: true });
		expect(stopped.wasStopped).toBe(true);
		expect(stopped.err).toContain('stopping with the best so far');
		expect([0, 1]).toContain(stopped.status);
		expect(JSON.parse(stopped.out)).toHaveProperty('bookings');
	});

	it('is not the only one that knows --progress by accident: others refuse it', async () => {
		expect((await type(['check', 'site.json', '--progress'], { files })).status).toBe(2);
	});
});

describe('serve', () => {
	it('serves until it is ended, and takes nothing', async () => {
		expect(await type(['serve'])).toEqual({ status: 0, out: '', err: '' });
		const refused = await type(['serve', 'site.json', '--port', '80']);
		expect(refused.status).toBe(2);
		expect(refused.err).toContain('--port');
	});
});

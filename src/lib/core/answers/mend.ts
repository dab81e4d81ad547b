import { z } from 'zod';
import { checks } from '../checks';
import type { Checked } from '../checks/support/recheck';
import { counted, listed, nameOf, personName } from '../document/names';
import type { Rollout } from '../document/schema';
import { type Fault, fault } from '../kernel/fault';
import { nearestName } from '../kernel/nearest';
import { ok, refused } from '../kernel/result';
import { type Mend, type Mends, findMends, mends } from '../mends';
import { minutesWords, sumWords } from '../mends/support/words';
import { defineAnswer } from './define-answer';
import { unknownId } from './support/params';

interface Params {
	readonly code: string;
	readonly person?: string | undefined;
	readonly door?: string | undefined;
	readonly schedule?: string | undefined;
	readonly kind?: string | undefined;
	readonly day?: string | undefined;
	readonly limit: number;
}

const text = (what: string) => z.string({ error: what }).optional().describe(what);
const codes = [...mends.keys()];

export default defineAnswer<Params, Mends>({
	name: 'mend',
	summary: 'The smallest changes that clear a finding, each tried out, with who else gains or loses what by it.',
	params: z.strictObject({
		code: z.string({ error: 'a code of findings' }).describe(`Code of the finding: ${codes.join(', ')}`),
		person: text('Id of the person of the finding'),
		door: text('Id of the door of the finding'),
		schedule: text('Id of the schedule of the finding'),
		kind: text('Kind of holiday of the finding'),
		day: text('Day of the finding: mon to sun, or a kind of holiday'),
		limit: z.int().min(1).max(50).default(6).describe('How many at most')
	}),
	async run(rollout, { code, limit, ...given }, work, memory) {
		const faults = faultsOf(rollout, code, given);
		if (faults.length > 0) return refused(faults);
		const subject = Object.fromEntries(
			(mends.get(code)?.asks ?? []).map((key) => [key, String(given[key as keyof typeof given])])
		);
		const checked = (memory?.get('checked') as Checked | undefined) ?? null;
		return ok(await findMends(rollout, code, subject, limit, work, checked));
	},
	isBad: () => false,
	text({ finding, mends: found, tried, clearing, whyNone }, rollout) {
		if (!finding) return 'There is no such finding, so there is nothing to mend.';
		const title = checks.get(finding.code)?.title ?? finding.code;
		const head = `${title}: ${finding.message}`;
		if (found.length === 0) return [head, `No mend found. ${whyNone ?? ''}`].join('\n\n');
		const more = `${counted(tried, 'change')} tried, ${clearing} of them ${clearing === 1 ? 'clears' : 'clear'} it; shown: ${found.length}, the smallest first.`;
		return [head, ...found.map((mend, place) => textOf(mend, place + 1, rollout)), more, caution].join('\n\n');
	}
});

const caution =
	'Whoever is let in by a change must be meant to be: whoever answers for the doors decides, not this list.';

function faultsOf(rollout: Rollout, code: string, given: Omit<Params, 'code' | 'limit'>): Fault[] {
	const definition = mends.get(code);
	if (!definition) {
		return [
			fault(['code'], code, `a code of findings that can be mended: ${codes.join(', ')}`, nearestName(code, codes))
		];
	}
	const { person, door, schedule } = given;
	const missing = definition.asks
		.filter((key) => given[key as keyof typeof given] === undefined)
		.map((key) => fault([key], undefined, `the ${key} of the finding ${code}`));
	const besides = Object.entries(given)
		.filter(([key, value]) => value !== undefined && !definition.asks.includes(key))
		.map(([key, value]) => fault([key], value, `nothing: the subject of ${code} is ${definition.asks.join(' and ')}`));
	return [
		...missing,
		...besides,
		...(person === undefined ? [] : unknownId('person', person, 'a person', rollout.people)),
		...(door === undefined ? [] : unknownId('door', door, 'a door', rollout.doors)),
		...(schedule === undefined ? [] : unknownId('schedule', schedule, 'a schedule', rollout.schedules))
	];
}

function textOf(mend: Mend, number: number, rollout: Rollout): string {
	const { does, isFact, notes, effects, raises, alsoClears } = mend;
	const { subject, others, rows } = effects;
	const lines = [`${number}. ${does}.${isFact ? ' (Right only if it is so.)' : ''}`];
	lines.push(...notes.map((note) => `   ${note}`));
	if (rows.length === 0) lines.push('   Nobody gains and nobody loses a minute at any door.');
	if (subject.people > 0) lines.push(`   ${nameOfSubject(rollout, mend)} ${sumWords(subject, true)}.`);
	if (others.people > 0) {
		const who = counted(others.people, 'other person', 'other people');
		lines.push(`   ${who} ${sumWords(others, others.people === 1)}.`);
	} else if (rows.length > 0) lines.push('   Nobody else gains or loses anything.');
	for (const row of rows.filter(({ isSubject }) => !isSubject).slice(0, 4)) {
		const who = listed(
			row.people.map((id) => personName(rollout, id)),
			2
		);
		const doors = listed(row.doors.map((id) => nameOf(rollout.doors, id)));
		lines.push(`     ${who}: each ${minutesWords(row, true)} at ${row.doors.length === 1 ? '' : 'each of '}${doors}`);
	}
	if (alsoClears.length > 0) lines.push(`   Also clears ${counted(alsoClears.length, 'other finding')}.`);
	lines.push(...raises.map(({ message }) => `   Raises: ${message}`));
	return lines.join('\n');
}

/** Findings of people are about one. */
function nameOfSubject(rollout: Rollout, { effects }: Mend): string {
	return personName(rollout, effects.rows.find(({ isSubject }) => isSubject)?.people[0]);
}

import { changesOf } from '../../src/lib/core/access/compare';
import access from '../../src/lib/core/answers/access';
import check from '../../src/lib/core/answers/check';
import compare from '../../src/lib/core/answers/compare';
import explain from '../../src/lib/core/answers/explain';
import { readRollout } from '../../src/lib/core/answers/support/read-rollout';
import type { Rollout } from '../../src/lib/core/document/schema';
import type { Result } from '../../src/lib/core/kernel/result';
import { unwatched } from '../../src/lib/core/kernel/work';
import type { AccessOracle } from '../oracles/access-oracle';
import { findingsOf } from '../oracles/findings-oracle';
import { type PlainDocument, all, byId } from '../oracles/plain-rollout';
import { accessOf, changesBetween, explanationOf, isWalkable } from '../oracles/questions-oracle';
import { plusDays } from '../oracles/timeline';

/**
 * Holds the core's answers against the oracle's. Each function gives undefined where they agree, and both sides where
 * they do not, so that a failed test shows the difference and nothing else.
 */

export interface Disagreement {
	readonly core: unknown;
	readonly oracle: unknown;
	readonly question?: unknown;
}

/** The rollout that the core reads in a document; throws with every fault when it refuses it. */
export function rolloutOf(document: PlainDocument): Rollout {
	return valueOf(readRollout(JSON.stringify(document))).rollout;
}

function valueOf<T>(result: Result<T>): T {
	if (!result.ok) throw new Error(result.faults.map((fault) => fault.message).join('\n'));
	return result.value;
}

/** Only what one list has and the other has not, so that a long list does not hide it. */
function difference(core: readonly unknown[], oracle: readonly unknown[]): Disagreement | undefined {
	const texts = (list: readonly unknown[]): string[] => list.map((entry) => JSON.stringify(entry)).sort();
	const [ofCore, ofOracle] = [texts(core), texts(oracle)];
	if (JSON.stringify(ofCore) === JSON.stringify(ofOracle)) return undefined;
	const only = (one: string[], other: string[]): string[] => one.filter((text) => !other.includes(text));
	return { core: only(ofCore, ofOracle), oracle: only(ofOracle, ofCore) };
}

/** `check`: codes, severities, subjects, dates and counts; the sentences are the core's own. */
export async function checkDisagreement(document: PlainDocument): Promise<Disagreement | undefined> {
	const { findings, counts } = valueOf(await check.run(rolloutOf(document), {}, unwatched));
	const expected = findingsOf(document);
	const expectedCounts = { error: 0, warning: 0, note: 0 };
	for (const { severity } of expected) expectedCounts[severity]++;
	const silent = new Set(expected.filter(({ count }) => count === null).map(({ code }) => code));
	const plain = findings.map(({ code, severity, subject, dates, count }) => {
		return { code, severity, subject, dates, count: silent.has(code) && count >= 1 ? null : count };
	});
	return difference([...plain, counts], [...expected, expectedCounts]);
}

/** `access` of a person at every door, over dates counted from the start of the horizon. */
export async function accessDisagreement(
	document: PlainDocument,
	person: string,
	daysAfterFrom: number,
	length: number
): Promise<Disagreement | undefined> {
	const from = plusDays(document.horizon.from, daysAfterFrom);
	const until = plusDays(from, length);
	const rollout = rolloutOf(document);
	const question = { person, from: from as never, until: until as never };
	const { spans } = valueOf(await access.run(rollout, question, unwatched));
	const expected = accessOf(document, { person, from, until });
	if (JSON.stringify(spans) === JSON.stringify(expected)) return undefined;
	return { ...difference(spans, expected), core: spans, oracle: expected, question };
}

export interface Moment {
	/** Positions in the lists, counted round and round. */
	readonly person: number;
	readonly door: number;
	/** Days after the start of the horizon. */
	readonly day: number;
	readonly minute: number;
}

/** `explain` at a moment. */
export async function explainDisagreement(oracle: AccessOracle, moment: Moment): Promise<Disagreement | undefined> {
	const { document } = oracle;
	const [people, doors] = [all(document.people), all(document.doors)];
	const person = people[moment.person % people.length]?.id ?? '';
	const door = doors[moment.door % doors.length]?.id ?? '';
	const time = [Math.floor(moment.minute / 60), moment.minute % 60]
		.map((part) => String(part).padStart(2, '0'))
		.join(':');
	const date = plusDays(document.horizon.from, moment.day);
	// After the horizon nothing is asked for.
	if (date > document.horizon.until) return undefined;
	return explainDisagreementAt(oracle, person, door, date, time);
}

/** `explain` at a local date and time. */
export async function explainDisagreementAt(
	oracle: AccessOracle,
	person: string,
	door: string,
	date: string,
	time: string
): Promise<Disagreement | undefined> {
	const { document } = oracle;
	const question = { person, door, at: `${date}T${time}` as never };
	const answer = valueOf(await explain.run(rolloutOf(document), question, unwatched));
	const minute = oracle.time.minuteOf(date, time);
	const expected = explanationOf(oracle, person, door, minute);
	const core = {
		allowed: answer.allowed,
		because: ordered(answer.because),
		routeLength: answer.route?.length ?? null,
		isRouteWalkable: answer.route === null || isWalkable(oracle, person, answer.route, minute),
		nextAllowed: answer.nextAllowed,
		untrueReasons: answer.blockedBy
			.map(({ reason, assignment }) => (assignment === undefined ? reason : `${reason} ${assignment}`))
			.filter((reason) => !isTrue(oracle, person, reason, expected.hindrances)),
		unexplained: unexplained(oracle, person, answer)
	};
	const ofOracle = {
		allowed: expected.allowed,
		because: ordered(expected.because),
		routeLength: expected.routeLength,
		isRouteWalkable: true,
		nextAllowed: expected.nextAllowed,
		untrueReasons: [],
		unexplained: []
	};
	if (JSON.stringify(core) === JSON.stringify(ofOracle)) return undefined;
	return { core, oracle: ofOracle, question };
}

function ordered(because: readonly object[]): string[] {
	return because.map((entry) => JSON.stringify(Object.entries(entry).sort())).sort();
}

function isTrue(oracle: AccessOracle, person: string, reason: string, hindrances: ReadonlySet<string>): boolean {
	if (reason !== 'not-matched') return hindrances.has(reason);
	// Without an assignment it says that none matches.
	const { assignments, people } = oracle.document;
	return !all(assignments).some((assignment) => oracle.matches(assignment, byId(people, person)));
}

/** What a refusal leaves without a reason: the whole of it, or an assignment that names the person. */
function unexplained(
	oracle: AccessOracle,
	person: string,
	answer: { allowed: boolean; route: unknown; blockedBy: readonly { assignment?: string; reason: string }[] }
): string[] {
	const isClear = answer.allowed && answer.route !== null;
	if (isClear) return answer.blockedBy.map(({ reason }) => `though nothing hinders: ${reason}`);
	if (answer.blockedBy.length === 0) return ['no reason at all'];
	if (answer.allowed || answer.blockedBy.some(({ reason }) => reason === 'not-employed')) return [];
	const { assignments, people } = oracle.document;
	return all(assignments)
		.filter((assignment) => oracle.matches(assignment, byId(people, person)))
		.map(({ id }) => id)
		.filter((id) => !answer.blockedBy.some(({ assignment }) => assignment === id));
}

/** `compare` between a document and the same one without an assignment, a person or a door group's door. */
export async function compareDisagreement(
	document: PlainDocument,
	pick: number,
	isRemoval: boolean
): Promise<Disagreement | undefined> {
	const changed = without(document, pick);
	const [before, after] = isRemoval ? [document, changed] : [changed, document];
	const answer = valueOf(await compare.run(rolloutOf(before), { with: rolloutOf(after) }, unwatched));
	const expected = [...changesBetween(before, after)].map(([pair, minutes]) => [pair, minutes]);
	const core = [...changesOf(answer)].map(({ person, door, gained, lost }) => [
		JSON.stringify([person, door]),
		{ gained, lost }
	]);
	return difference(core, expected);
}

/** A document that lacks something which others may do without. */
function without(document: PlainDocument, pick: number): PlainDocument {
	const drop = <T>(list: readonly T[] | null | undefined, at: number): T[] =>
		all(list).filter((_, index) => index !== at % Math.max(1, all(list).length));
	switch (pick % 4) {
		case 0:
			return { ...document, assignments: drop(document.assignments, pick >> 2) };
		case 1:
			return { ...document, holidays: { ...document.holidays, days: drop(document.holidays?.days, pick >> 2) } };
		case 2:
			return {
				...document,
				doorGroups: all(document.doorGroups).map((group) => ({ ...group, doors: drop(group.doors, pick >> 2) }))
			};
		default:
			return {
				...document,
				schedules: all(document.schedules).map((schedule) => ({ ...schedule, from: null, until: null }))
			};
	}
}
